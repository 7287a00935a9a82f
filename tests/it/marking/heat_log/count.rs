//! Heats that were counted, and those that nobody watched.

use evenshod::marking::heat_log::{Counted, HeatLog, What, timeline};

use super::{at, log, part};

fn heat(weld: bool) -> What {
    What::Heat { weld }
}

/// Heats and weld heats, where two weld heats are planned, and where none is.
#[track_caller]
fn check(taps: &[What], heats: Counted, planned: Counted, unplanned: Counted) {
    let taps = (0..)
        .zip(taps)
        .map(|(seconds, what)| at(seconds, what.clone()));
    let log: HeatLog = log(taps);
    let found = timeline(&log, &[part("weld", 2, true)]);
    assert_eq!((found.heats, found.weld_heats), (heats, planned));
    let found = timeline(&log, &[part("toe", 2, false)]);
    assert_eq!((found.heats, found.weld_heats), (heats, unplanned));
}

#[test]
fn heats_nobody_saw_are_not_counted_and_never_none() {
    use Counted::{AtLeast, Known, NotCounted};
    check(&[], NotCounted, NotCounted, NotCounted);
    check(
        &[What::Start, What::Finished],
        NotCounted,
        NotCounted,
        NotCounted,
    );
    check(&[What::NotWatched], NotCounted, NotCounted, NotCounted);
    check(&[heat(false)], Known(1), NotCounted, Known(0));
    check(&[heat(false), heat(true)], Known(2), Known(1), Known(1));
    let unwatched = [What::NotWatched, heat(false), heat(true)];
    check(&unwatched, AtLeast(2), AtLeast(1), AtLeast(1));
    let unwatched = [heat(false), What::NotWatched];
    check(&unwatched, AtLeast(1), NotCounted, NotCounted);
}
