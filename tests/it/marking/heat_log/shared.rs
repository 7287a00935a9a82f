use evenshod::marking::Facts;
use evenshod::marking::heat_log::{SharedTime, planned_spans, timeline};
use evenshod::rubric::Rubric;
use proptest::prelude::*;

use super::part;
use crate::marking::{facts, rubric};

const HOUR_MS: u64 = 3_600_000;

fn shared(rubric: &Rubric, facts: &Facts) -> Option<SharedTime> {
    facts.shared_time(rubric, &timeline(&facts.heat_log, &[]))
}

fn timed(time: &str) -> Rubric {
    let mut timed = rubric(crate::progress::RUBRIC);
    if time.is_empty() {
        timed.time = None;
    }
    timed
}

#[test]
fn every_heat_has_as_much_of_the_time_as_any_other() {
    let parts = [
        part("bend", 2, false),
        part("", 0, false),
        part("weld", 1, true),
    ];
    let spans = planned_spans(&parts, SharedTime::Allowed(HOUR_MS));
    let said: Vec<_> = spans
        .iter()
        .map(|span| (span.step.as_deref(), span.weld, span.from_ms, span.to_ms))
        .collect();
    // An hour over three heats.
    assert_eq!(
        said,
        [
            (Some("bend"), false, 0, 2_400_000),
            (Some("weld"), true, 2_400_000, HOUR_MS),
        ]
    );
    assert_eq!(planned_spans(&parts[1..2], SharedTime::Taken(1)), []);
    assert_eq!(planned_spans(&[], SharedTime::Taken(1)), []);
}

#[test]
fn the_time_allowed_goes_before_what_it_took() {
    let plain = facts("{}");
    let minutes = |count: u64| count * 60_000;
    // 35 min by the rubric, and 5 by arrangement.
    let allowed = |ms| Some(SharedTime::Allowed(ms));
    assert_eq!(shared(&timed("35 min"), &plain), allowed(minutes(35)));
    let extra = facts(r#"{"extra_time": {"duration": "5 min", "reason": "asked"}}"#);
    assert_eq!(shared(&timed("35 min"), &extra), allowed(minutes(40)));
    assert_eq!(shared(&timed(""), &plain), None);
    let entered = facts(r#"{"heat_log": {"afterwards": {"time": "50 min"}}}"#);
    let taken = Some(SharedTime::Taken(minutes(50)));
    assert_eq!(shared(&timed(""), &entered), taken);
}

proptest! {
    /// Nothing is left between, and all of it is shared.
    #[test]
    fn spans_follow_each_other(counts in prop::collection::vec(0_u32.., 1..8), ms in 0_u64..) {
        let parts: Vec<_> = counts.iter().map(|count| part("step", *count, false)).collect();
        let spans = planned_spans(&parts, SharedTime::Taken(ms));
        let mut from = 0;
        for span in &spans {
            prop_assert_eq!(span.from_ms, from);
            prop_assert!(span.to_ms >= from);
            from = span.to_ms;
        }
        prop_assert!(spans.is_empty() || from == ms);
    }
}
