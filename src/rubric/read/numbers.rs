//! Numbers that may be given by eye.

use super::table::{Table, split_message};
use crate::quantity::{Exact, Marks, read_exact};
use crate::rubric::model::Judged;

/// More numbers than a person can tell apart.
const MOST_NUMBERS: i128 = 400;
const MOST_LISTED: usize = 401;

pub(super) fn read_numbers(table: &Table<'_>, numbers: Table<'_>) -> Judged {
    let listed = numbers.texts("allowed");
    let mut allowed: Vec<Marks> = listed
        .into_iter()
        .filter_map(|(text, span)| match read_exact(&text) {
            Ok(value) => Some(Marks(value)),
            Err(fault) => {
                let (what, remedy) = split_message(&fault.to_string());
                numbers.source.error(span, what, remedy);
                None
            }
        })
        .collect();
    if allowed.is_empty() {
        let (least, most) = (numbers.needed_marks("least"), numbers.needed_marks("most"));
        allowed = stepped(&numbers, least, most);
    } else if ["least", "most", "step"].iter().any(|key| numbers.has(key)) {
        numbers.error(
            "allowed",
            "numbers stated twice",
            "keep allowed, or least, most and step",
        );
    }
    numbers.finish();
    allowed.sort_unstable();
    allowed.dedup();
    if allowed.len() > MOST_LISTED {
        table.error("numbers", "more than 400 numbers", "use fewer");
        allowed.truncate(MOST_LISTED);
    }
    if allowed.first().is_some_and(|least| least.0.is_negative()) {
        table.error("numbers", "marks below zero", "write zero or more");
    }
    let mut descriptors = Vec::new();
    for descriptor in table.tables("descriptors", "descriptor") {
        let at = descriptor.needed_marks("at");
        if !allowed.contains(&at) {
            let what = format!("{at} is not one of the numbers");
            descriptor.error("at", what, "use a number that can be given");
        }
        descriptors.push((at, descriptor.needed_text("text")));
        descriptor.finish();
    }
    Judged::Numbers {
        allowed,
        descriptors,
    }
}

/// From `least` to `most` in steps of the key `step`, 1 where there is none.
pub(super) fn stepped(numbers: &Table<'_>, least: Marks, most: Marks) -> Vec<Marks> {
    let step = numbers.marks("step").unwrap_or(Marks::whole(1));
    let steps = most.minus(least).and_then(|range| range.0.over(step.0));
    let Some(steps) = steps.filter(|steps| !steps.is_negative() && steps.floor() <= MOST_NUMBERS)
    else {
        let remedy = "write least below most, and at most 400 steps between them";
        numbers.source.error(
            numbers.span.clone(),
            "these numbers cannot be counted out",
            remedy,
        );
        return Vec::new();
    };
    if steps.denominator() != 1 {
        let remedy = "choose a step that leads from least to most";
        numbers.error("step", "the steps do not end on the most", remedy);
    }
    (0..=steps.floor())
        .filter_map(|index| least.plus(Marks(step.0.times(Exact::whole(index))?)))
        .collect()
}
