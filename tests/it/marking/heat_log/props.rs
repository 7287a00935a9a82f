//! What holds for all heat logs.

use evenshod::marking::heat_log::{
    HeatLog, Place, Run, Stop, Tap, What, may, next_weld, timeline, timeline_at,
};
use evenshod::quantity::Moment;
use proptest::prelude::*;

use super::{ZERO_MS, part};

fn what() -> impl Strategy<Value = What> {
    let text = || "[a-c]{0,2}";
    let how = prop::sample::select(Stop::ALL.to_vec());
    prop_oneof![
        1 => Just(What::Start),
        4 => Just(What::Fire),
        4 => any::<bool>().prop_map(|weld| What::Anvil { weld }),
        1 => any::<bool>().prop_map(|weld| What::Heat { weld }),
        2 => text().prop_map(|step| What::Step { step }),
        1 => (text(), text()).prop_map(|(entry, fault)| What::Fault { entry, fault }),
        1 => text().prop_map(|text| What::Note { text }),
        1 => Just(What::NotWatched),
        1 => text().prop_map(|reason| What::Pause { reason }),
        2 => Just(What::Resume),
        1 => Just(What::Called),
        1 => Just(What::Finished),
        1 => (how, text()).prop_map(|(how, reason)| What::Stopped { how, reason }),
    ]
}

fn run() -> impl Strategy<Value = Option<Run>> {
    let ms = prop_oneof![4 => 0..5_000_000_u64, 1 => 0..=Run::MOST_MS];
    prop::option::of((0..3_u32, ms).prop_map(|(page, ms)| Run { page, ms }))
}

fn moment() -> impl Strategy<Value = Moment> {
    let near = (0..5_000_000_i64).prop_map(|ms| Moment::new(ZERO_MS + ms, 0));
    let any = (any::<i64>(), any::<i16>()).prop_map(|(ms, off)| Moment::new(ms, off));
    prop_oneof![6 => near, 1 => any]
}

prop_compose! {
    fn tap()(at in moment(), run in run(), what in what()) -> Tap {
        Tap { at, run, what }
    }
}

fn logs() -> impl Strategy<Value = HeatLog> {
    prop::collection::vec(tap(), 0..40).prop_map(super::log)
}

proptest! {
    #[test]
    fn stretches_fill_the_time_and_sums_agree(
        log in logs(), now in (moment(), run()), is_now: bool,
    ) {
        let parts = [part("a", 2, false), part("b", 1, true), part("", 1, false)];
        let found = match is_now {
            true => timeline_at(&log, &parts, now),
            false => timeline(&log, &parts),
        };
        let mut from = 0;
        for stretch in &found.stretches {
            prop_assert_eq!(stretch.from_ms, from);
            prop_assert!(stretch.to_ms > from);
            from = stretch.to_ms;
        }
        prop_assert_eq!(from, found.total_ms);
        let sum = |place: Place| -> u64 {
            let of = found.stretches.iter().filter(|one| one.at == place);
            of.map(|one| one.to_ms - one.from_ms).sum()
        };
        prop_assert_eq!(sum(Place::Fire), found.fire_ms);
        prop_assert_eq!(sum(Place::Anvil), found.anvil_ms);
        prop_assert_eq!(found.total_ms - sum(Place::Paused), found.worked_ms);
        let on_steps: u64 = found.steps.iter().map(|step| step.ms).sum();
        prop_assert!(on_steps <= found.worked_ms);
        prop_assert!(found.time_ms.is_none_or(|time| time == found.worked_ms));
        prop_assert!(found.marks.is_sorted_by_key(|(at, _)| *at));
        prop_assert!(found.marks.iter().all(|(at, _)| *at <= found.total_ms));
        next_weld(&found, &parts);
    }

    #[test]
    fn time_never_goes_back_from_tap_to_tap(log in logs()) {
        // Without a start, as one that comes later begins the time anew.
        let taps = log.taps.into_iter().filter(|tap| tap.what != What::Start);
        let log = super::log(taps);
        let mut last = 0;
        for many in 0..=log.taps.len() {
            let so_far = timeline(&super::log(log.taps[..many].to_vec()), &[]);
            prop_assert!(so_far.total_ms >= last);
            last = so_far.total_ms;
        }
    }

    #[test]
    fn a_log_is_written_and_read_as_it_is(log in logs()) {
        let text = serde_json::to_string(&log).unwrap();
        prop_assert_eq!(serde_json::from_str::<HeatLog>(&text).unwrap(), log);
    }

    #[test]
    fn what_may_come_is_heard(log in logs(), tap in tap()) {
        if !may(&log, &tap.what) || timeline(&log, &[]).state.has_ended() {
            return Ok(());
        }
        let before = timeline(&log, &[]).state;
        let mut after = log;
        let what = tap.what.clone();
        after.taps.push(tap);
        let changes = matches!(
            what,
            What::Fire | What::Pause { .. } | What::Resume | What::Finished | What::Stopped { .. }
        );
        if changes {
            prop_assert_ne!(timeline(&after, &[]).state, before);
        }
    }
}
