//! Where the steel was, and for how long.

use evenshod::marking::heat_log::{
    Counted, HeatLog, Place, Progress, StepTime, Stop, What, may, next_weld, timeline,
};

use super::{at, log, out, part, pause, step, weld};

/// From, to, place, step and weld of each stretch, in seconds.
fn drawn(log: &HeatLog) -> Vec<(u64, u64, Place, String, bool)> {
    let stretches = timeline(log, &[]).stretches.into_iter();
    let told = stretches.map(|one| {
        let step = one.step.unwrap_or_default();
        (one.from_ms / 1000, one.to_ms / 1000, one.at, step, one.weld)
    });
    told.collect()
}

/// Two heats, the second a weld, with a pause of 30 s in the fire.
fn two_heats() -> HeatLog {
    log([
        at(0, What::Start),
        at(10, step("toe")),
        at(20, What::Fire),
        at(80, out()),
        at(110, What::Fire),
        at(120, pause()),
        at(150, What::Resume),
        at(170, step("bar")),
        at(190, weld()),
        at(200, What::Called),
        at(230, What::Finished),
    ])
}

#[test]
fn a_log_is_drawn_without_gaps() {
    let (toe, bar) = ("toe".to_owned(), "bar".to_owned());
    assert_eq!(
        drawn(&two_heats()),
        [
            (0, 10, Place::Elsewhere, String::new(), false),
            (10, 20, Place::Elsewhere, toe.clone(), false),
            (20, 80, Place::Fire, toe.clone(), false),
            (80, 110, Place::Anvil, toe.clone(), false),
            (110, 120, Place::Fire, toe.clone(), true),
            (120, 150, Place::Paused, toe.clone(), false),
            (150, 170, Place::Fire, toe, true),
            (170, 190, Place::Fire, bar.clone(), true),
            (190, 230, Place::Anvil, bar, true),
        ]
    );
}

#[test]
fn a_log_comes_to_its_times_by_hand() {
    let parts = [part("toe", 1, false), part("heel", 2, false)];
    let found = timeline(&two_heats(), &parts);
    // 230 s less 30 s of pause.
    assert_eq!((found.total_ms, found.worked_ms), (230_000, 200_000));
    assert_eq!(found.time_ms, Some(200_000));
    // 20 to 80, 110 to 120, 150 to 190; 80 to 110, 190 to 230.
    assert_eq!((found.fire_ms, found.anvil_ms), (110_000, 70_000));
    assert_eq!(found.heats, Counted::Known(2));
    assert_eq!(found.weld_heats, Counted::Known(1));
    assert_eq!(found.state, Progress::Finished);
    // The call at 200 s is tap 9.
    assert_eq!(found.marks, [(200_000, 9)]);
    let of = |step: &str, planned, heats, ms| StepTime {
        step: step.to_owned(),
        planned,
        heats,
        ms,
    };
    // Toe: 10 to 170 without the pause; bar: 170 to 230; heel was planned and not named.
    assert_eq!(
        found.steps,
        [
            of("toe", 1, 1, 130_000),
            of("heel", 2, 0, 0),
            of("bar", 0, 1, 60_000),
        ]
    );
}

#[test]
fn it_runs_on_until_it_ends() {
    let mut log = two_heats();
    let mut states = Vec::new();
    while !log.taps.is_empty() {
        states.push(timeline(&log, &[]).state);
        log.taps.pop();
    }
    states.reverse();
    use Progress::{AtAnvil, Finished, InFire, NotStarted, Paused};
    assert_eq!(timeline(&log, &[]).state, NotStarted);
    assert_eq!(
        states,
        [
            AtAnvil, AtAnvil, InFire, AtAnvil, InFire, Paused, InFire, InFire, AtAnvil, AtAnvil,
            Finished
        ]
    );
}

#[test]
fn after_the_end_nothing_but_notes_is_heard() {
    let note = || What::Note {
        text: "tip off".to_owned(),
    };
    let mut late = two_heats();
    late.taps.extend([
        at(240, What::Start),
        at(250, What::Fire),
        at(260, out()),
        at(270, note()),
        at(280, What::Finished),
    ]);
    let (late, on_time) = (timeline(&late, &[]), timeline(&two_heats(), &[]));
    assert_eq!(late.marks, [(200_000, 9), (230_000, 14)]);
    assert_eq!(late.stretches, on_time.stretches);
    assert_eq!((late.heats, late.time_ms), (on_time.heats, on_time.time_ms));
}

#[test]
fn a_stopped_piece_is_kept_as_such() {
    let stop = What::Stopped {
        how: Stop::Withdrawn,
        reason: "burn".to_owned(),
    };
    let taps = [
        at(0, What::Start),
        at(0, What::Fire),
        at(60, out()),
        at(90, What::Fire),
    ];
    let found = timeline(&log(taps.into_iter().chain([at(100, stop)])), &[]);
    assert_eq!(found.state, Progress::Stopped(Stop::Withdrawn));
    assert_eq!((found.time_ms, found.worked_ms), (None, 100_000));
    // What went into the fire last never came out.
    assert_eq!(found.heats, Counted::Known(1));
    assert!(found.heats_in_fire_open);
}

#[test]
fn before_the_start_heats_count_and_time_does_not() {
    let taps = [
        at(0, What::Fire),
        at(50, out()),
        at(60, What::Fire),
        at(100, What::Start),
        at(130, out()),
        at(150, What::Finished),
    ];
    let found = timeline(&log(taps), &[]);
    assert_eq!(found.heats, Counted::Known(2));
    assert_eq!(found.time_ms, Some(50_000));
    assert_eq!((found.fire_ms, found.anvil_ms), (30_000, 20_000));
}

#[test]
fn without_a_start_heats_are_known_and_the_time_is_not() {
    let found = timeline(
        &log([at(5, What::Fire), at(50, out()), at(60, What::Finished)]),
        &[],
    );
    assert_eq!((found.heats, found.time_ms), (Counted::Known(1), None));
    assert_eq!((found.total_ms, found.fire_ms), (55_000, 45_000));
}

#[test]
fn into_the_fire_twice_is_once() {
    let taps = [
        at(0, What::Start),
        at(10, What::Fire),
        at(30, What::Fire),
        at(60, out()),
    ];
    let found = timeline(&log(taps), &[]);
    assert_eq!((found.heats, found.fire_ms), (Counted::Known(1), 50_000));
    // Out without having gone in: a heat whose time in the fire is not known.
    let found = timeline(
        &log([at(0, What::Start), at(60, out()), at(90, out())]),
        &[],
    );
    assert_eq!((found.heats, found.fire_ms), (Counted::Known(2), 0));
    assert_eq!(found.anvil_ms, 30_000);
}

#[test]
fn sixty_heats_add_up() {
    // Each 50 s in the fire and 40 s out of it, every tenth a weld.
    let heats = (0..60_u32).flat_map(|heat| {
        let weld = heat % 10 == 9;
        [
            at(heat * 90, What::Fire),
            at(heat * 90 + 50, What::Anvil { weld }),
        ]
    });
    let taps = [at(0, What::Start)].into_iter().chain(heats);
    let found = timeline(&log(taps.chain([at(5400, What::Finished)])), &[]);
    assert_eq!(found.heats, Counted::Known(60));
    assert_eq!(found.weld_heats, Counted::Known(6));
    assert_eq!((found.fire_ms, found.anvil_ms), (3_000_000, 2_400_000));
    assert_eq!(found.stretches.len(), 120);
}

#[test]
fn the_next_heat_is_a_weld_where_the_plan_says_so() {
    let parts = [
        part("toe", 1, false),
        part("weld", 2, true),
        part("level", 1, false),
    ];
    let mut taps = vec![at(0, What::Start)];
    let next = |taps: &[_]| next_weld(&timeline(&log(taps.to_vec()), &parts), &parts);
    let mut told = Vec::new();
    for second in 1..=5 {
        told.push(next(&taps));
        taps.extend([at(10 * second, What::Fire), at(10 * second + 5, out())]);
    }
    assert_eq!(told, [false, true, true, false, false]);
    // By steps: the second and last of the weld.
    taps = vec![at(0, What::Start), at(1, step("weld")), at(2, out())];
    assert!(next(&taps));
    taps.push(at(3, weld()));
    assert!(!next(&taps));
    // No heat of the plan is of this step.
    taps.push(at(4, step("finish")));
    assert!(!next(&taps));
}

#[test]
fn only_taps_that_make_sense_may_come() {
    let start = log([at(0, What::Start)]);
    let with = |what: What| log([at(0, What::Start), at(1, what)]);
    for (log, what, sense) in [
        (&HeatLog::default(), What::Start, true),
        (&start, What::Start, false),
        (&start, What::Fire, true),
        (&with(What::Fire), What::Fire, false),
        (&with(What::Fire), What::Heat { weld: false }, false),
        (&with(What::Fire), out(), true),
        (&start, out(), true),
        (&start, What::Resume, false),
        (&with(pause()), What::Resume, true),
        (&with(pause()), What::Fire, false),
        (&with(pause()), pause(), false),
        (&with(pause()), What::Finished, true),
        (&two_heats(), What::Fire, false),
        (&two_heats(), What::NotWatched, false),
        (
            &two_heats(),
            What::Note {
                text: String::new(),
            },
            true,
        ),
    ] {
        assert_eq!(may(log, &what), sense, "{what:?}");
    }
}
