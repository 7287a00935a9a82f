//! Sleep, clocks that are set, and pages that open anew.

use evenshod::marking::heat_log::{Jump, What, timeline, timeline_at};

use super::{at, log, on, out};

/// Start at 0, one more tap: what the clocks showed then, what counts, and the jump.
#[track_caller]
fn check(page: u32, run: u32, clock: i64, counted_ms: u64, jump: Option<Option<u64>>) {
    let taps = [at(0, What::Start), on(page, run, clock, What::Finished)];
    let found = timeline(&log(taps), &[]);
    assert_eq!(found.time_ms, Some(counted_ms));
    let jump = jump.map(|page_ms| Jump {
        tap: 1,
        page_ms,
        clock_ms: clock * 1000,
        counted_ms,
    });
    assert_eq!(found.jumps, Vec::from_iter(jump));
}

#[test]
fn of_one_page_its_own_clock_counts() {
    check(1, 60, 60, 60_000, None);
    // Two seconds apart still agree; three do not.
    check(1, 60, 62, 60_000, None);
    check(1, 60, 58, 60_000, None);
}

#[test]
fn asleep_or_put_forward_the_devices_clock_counts() {
    // The page stood for 20 min.
    check(1, 60, 1260, 1_260_000, Some(Some(60_000)));
    check(1, 60, 63, 63_000, Some(Some(60_000)));
    // Summer time does nothing: moments are UTC. An hour put on by hand cannot be told from sleep.
    check(1, 60, 3660, 3_660_000, Some(Some(60_000)));
}

#[test]
fn put_back_the_pages_clock_counts() {
    check(1, 60, -3540, 60_000, Some(Some(60_000)));
    check(1, 60, 57, 60_000, Some(Some(60_000)));
}

#[test]
fn of_two_lives_the_devices_clock_counts() {
    check(2, 1, 60, 60_000, None);
    // Put back between the two: nothing is known of the time, so none counts.
    check(2, 1, -60, 0, Some(None));
    // A page's clock never runs back, so this is another's of the same number.
    let taps = [at(5, What::Start), on(1, 3, 65, What::Finished)];
    assert_eq!(timeline(&log(taps), &[]).time_ms, Some(60_000));
}

#[test]
fn without_a_pages_clock_the_devices_counts() {
    let mut taps = [at(0, What::Start), at(60, What::Finished)];
    taps[1].run = None;
    let found = timeline(&log(taps), &[]);
    assert_eq!((found.time_ms, found.jumps.len()), (Some(60_000), 0));
}

#[test]
fn an_offset_that_changes_takes_no_time() {
    let mut taps = [at(0, What::Start), at(60, What::Finished)];
    taps[1].at = evenshod::quantity::Moment::new(taps[1].at.utc_ms(), 60);
    let found = timeline(&log(taps), &[]);
    assert_eq!((found.time_ms, found.jumps.len()), (Some(60_000), 0));
}

#[test]
fn a_page_opened_anew_goes_on_to_the_second() {
    // 0 to 100 s in the fire, over a reload at 60 s; then 40 s at the anvil, now.
    let taps = [at(0, What::Start), at(0, What::Fire), on(2, 10, 100, out())];
    let now = on(2, 50, 140, What::Fire);
    let found = timeline_at(&log(taps), &[], (now.at, now.run));
    assert_eq!((found.fire_ms, found.anvil_ms), (100_000, 40_000));
    assert_eq!((found.total_ms, found.time_ms), (140_000, None));
    assert!(found.jumps.is_empty());
    // Slept since: what runs is told with the place behind the last tap.
    let now = on(2, 50, 400, What::Fire);
    let taps = log([at(0, What::Start), on(2, 10, 100, out())]);
    let found = timeline_at(&taps, &[], (now.at, now.run));
    assert_eq!(found.total_ms, 400_000);
    assert_eq!(found.jumps.first().map(|jump| jump.tap), Some(2));
}
