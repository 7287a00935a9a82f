//! Heats by making step, beside what the step costs.

use std::sync::Arc;

use evenshod::marking::Facts;
use evenshod::marking::heat_log::{Tap, What};
use evenshod::progress::{StepHeats, all_series, heats_by_step};
use evenshod::quantity::{Exact, Moment};

use super::{RUBRIC, fraction, made_of, seen};
use crate::marking::{facts, rubric};

/// Facts with taps: a step where one is named, a heat where it is empty.
pub fn tapped(mut facts: Facts, said: &[&str]) -> Facts {
    let what = |said: &&str| match *said {
        "" => What::Heat { weld: false },
        "away" => What::NotWatched,
        step => What::Step {
            step: step.to_owned(),
        },
    };
    let at = Moment::new(0, 0);
    let tap = |said| Tap {
        at,
        run: None,
        what: what(said),
    };
    facts.heat_log.taps = said.iter().map(tap).collect();
    facts
}

/// Facts with heats entered afterwards.
pub fn entered(mut seen: Facts, heats: &str) -> Facts {
    let text = format!(r#"{{"heat_log": {{"afterwards": {{"heats": {heats}}}}}}}"#);
    seen.heat_log = facts(&text).heat_log;
    seen
}

fn counted(facts: &Facts) -> Vec<(String, u32)> {
    let counted = facts.heats_by_step(&rubric(RUBRIC));
    let counted = counted.into_iter();
    counted
        .map(|(step, heats)| (step.unwrap_or_default(), heats))
        .collect()
}

fn told(heats: &[(&str, u32)]) -> Vec<(String, u32)> {
    let told = heats.iter();
    told.map(|(step, heats)| ((*step).to_owned(), *heats))
        .collect()
}

#[test]
fn taps_count_the_heats_of_steps() {
    let plain = || seen(4, 1, 6, 6, "");
    assert_eq!(counted(&plain()), []);
    let by_taps = tapped(plain(), &["bend", "", "", "groove", "", "bend", ""]);
    assert_eq!(counted(&by_taps), told(&[("bend", 3), ("groove", 1)]));
    // A step without a heat had none; a heat before any step belongs to none.
    let early = tapped(plain(), &["", "bend", ""]);
    assert_eq!(
        counted(&early),
        told(&[("", 1), ("bend", 1), ("groove", 0)])
    );
    // Where nobody named a step, steps were not counted.
    assert_eq!(counted(&tapped(plain(), &["", ""])), told(&[("", 2)]));
    // Heats may be missing: not counted, which is not none.
    assert_eq!(counted(&tapped(plain(), &["bend", "", "away"])), []);
}

#[test]
fn what_was_entered_counts_where_nobody_watched() {
    let plain = || seen(4, 1, 6, 6, "");
    let texts = r#"{"bend": " 3 ", "groove": "two", "": "1"}"#;
    let after = entered(plain(), texts);
    assert_eq!(counted(&after), told(&[("", 1), ("bend", 3)]));
    let mut both = tapped(plain(), &["groove", "", "away"]);
    both.heat_log.afterwards = after.heat_log.afterwards.clone();
    assert_eq!(counted(&both), told(&[("", 1), ("bend", 3)]));
    // Known taps come first.
    both.heat_log.taps.truncate(2);
    assert_eq!(counted(&both), told(&[("bend", 0), ("groove", 1)]));
}

#[test]
fn means_are_of_the_pieces_that_were_counted() {
    let all = [
        entered(seen(0, 1, 6, 6, ""), r#"{"bend": "4"}"#),
        // Not marked as a whole: left out, as from the marks lost.
        tapped(facts(r#"{"levels": {"toe": "0"}}"#), &["bend", "", "", ""]),
        tapped(seen(3, 1, 6, 6, ""), &["bend", "", "", "groove", ""]),
        seen(4, 1, 6, 6, ""),
        tapped(seen(4, 1, 6, 6, ""), &["bend", "", "", ""]),
    ];
    let pieces = made_of(&Arc::new(rubric(RUBRIC)), &all);
    let steps = heats_by_step(&all_series(&pieces)[0]);
    let said: Vec<_> = steps.iter().map(said).collect();
    assert_eq!(
        said,
        [
            // Latest: 2 and 3 in two of three pieces; before: the one entered.
            (
                Some("Bending"),
                Some(fraction(5, 2)),
                2,
                Some(Exact::whole(4)),
                true
            ),
            // It never cost anything, and was not entered before.
            (Some("Fullering"), Some(fraction(1, 2)), 2, None, false),
        ]
    );
    assert_eq!(steps[0].points, [Some(4), Some(2), None, Some(3)]);
    let none = made_of(&Arc::new(rubric(RUBRIC)), &all[3..4]);
    assert_eq!(heats_by_step(&all_series(&none)[0]), []);
}

type Said<'a> = (Option<&'a str>, Option<Exact>, usize, Option<Exact>, bool);

fn said(step: &StepHeats) -> Said<'_> {
    let before = step.before.as_ref().and_then(|before| before.mean);
    let latest = &step.latest;
    assert_eq!(latest.pieces, 3);
    (
        step.name.as_deref(),
        latest.mean,
        latest.counted,
        before,
        step.lost.is_some(),
    )
}
