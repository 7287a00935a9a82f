use std::sync::Arc;

use evenshod::progress::{all_series, losses_by_step, lost_by_step};
use evenshod::quantity::Marks;
use proptest::prelude::*;

use super::{RUBRIC, fraction, made_of, seen};
use crate::marking::{facts, rubric};

fn told(lost: &std::collections::BTreeMap<Option<String>, Marks>) -> Vec<(String, String)> {
    let one = |(step, marks): (&Option<String>, &Marks)| {
        (step.clone().unwrap_or_default(), marks.to_string())
    };
    lost.iter().map(one).collect()
}

#[test]
fn marks_lost_go_to_the_step_that_a_criterion_or_its_fault_names() {
    let rubric = Arc::new(rubric(RUBRIC));
    // Toe 3 levels, heels 1, depth 2; one heat over. Marks of the form count twice.
    let all = [seen(1, 0, 4, 7, "thin"), seen(1, 0, 4, 7, "")];
    let pieces = made_of(&rubric, &all);
    let of = |at: usize| told(&lost_by_step(&pieces[at]));
    let own = |list: &[(&str, &str)]| -> Vec<(String, String)> {
        list.iter()
            .map(|(step, marks)| ((*step).to_owned(), (*marks).to_owned()))
            .collect()
    };
    // Heats name no step, nor does a heel without its fault.
    assert_eq!(of(0), own(&[("", "1"), ("bend", "6"), ("groove", "4")]));
    assert_eq!(of(1), own(&[("", "3"), ("bend", "6"), ("groove", "2")]));
}

#[test]
fn steps_are_told_in_the_order_of_the_making_the_latest_pieces_apart() {
    let rubric = Arc::new(rubric(RUBRIC));
    let all = [
        seen(0, 1, 6, 6, ""),
        seen(1, 1, 6, 6, ""),
        // Not marked as a whole: it is left out.
        facts(r#"{"levels": {"toe": "0"}}"#),
        seen(4, 1, 5, 6, ""),
        seen(3, 1, 6, 6, ""),
        seen(4, 1, 6, 6, ""),
    ];
    let pieces = made_of(&rubric, &all);
    let losses = losses_by_step(&all_series(&pieces)[0]);
    let told: Vec<_> = losses
        .iter()
        .map(|loss| (loss.name.as_deref(), loss.latest, loss.before))
        .collect();
    // Before: toe lost 4 and 3 levels of 2 marks. Latest: one level once, one of depth once.
    let marks = |numerator, denominator| Marks(fraction(numerator, denominator));
    assert_eq!(
        told,
        [
            (Some("Bending"), marks(2, 3), Some(marks(7, 1))),
            (Some("Fullering"), marks(1, 3), Some(Marks::ZERO)),
        ]
    );
    let losses = losses_by_step(&all_series(&pieces[3..])[0]);
    assert!(losses.iter().all(|loss| loss.before.is_none()));
}

proptest! {
    /// What the steps lose together is what the piece lost.
    #[test]
    fn no_mark_is_lost_twice_or_forgotten(
        toe in 0_u32..=4, heels in 0_u32..=1, depth in 0_u32..=6, heats in 0_u32..=9,
    ) {
        let rubric = Arc::new(rubric(RUBRIC));
        let all = [seen(toe, heels, depth, heats, "thin")];
        let pieces = made_of(&rubric, &all);
        let lost = lost_by_step(&pieces[0]);
        let outcome = &pieces[0].outcome;
        prop_assert!(outcome.complete);
        prop_assert_eq!(Marks::sum(lost.into_values()), outcome.out_of.minus(outcome.marks));
    }
}
