//! How sure marks are: against published examples, another program and simulation.

mod calls;
mod props;
mod published;
mod shared;
mod simulated;
mod stated;

use evenshod::conformity::{Certainty, weigh};
use evenshod::marking::Facts;
use evenshod::rubric::{Rubric, read_rubric};

#[track_caller]
pub fn read(text: &str) -> Rubric {
    let checked = read_rubric(text);
    let faults: Vec<String> = checked.errors().map(ToString::to_string).collect();
    checked
        .rubric
        .unwrap_or_else(|| panic!("{}", faults.join("\n")))
}

/// A rubric with these instruments, award and sections; the piece does not matter here.
#[track_caller]
pub fn rubric(rest: &str) -> Rubric {
    read(&format!(
        r#"
schema = 1
id = "try"
version = "1"
title = "Try"
[piece]
kind = "open-heeled"
stock = {{ width = "20 mm", thickness = "10 mm" }}
finished = {{ width = "120 mm", length = "130 mm" }}
heels = {{ gap = "50 mm" }}
{rest}
"#
    ))
}

#[track_caller]
pub fn facts(json: &str) -> Facts {
    serde_json::from_str(json).unwrap()
}

#[track_caller]
pub fn weighed(rubric: &Rubric, json: &str) -> Certainty {
    weigh(rubric, &facts(json)).unwrap()
}

/// The probability of so many marks of an entry.
#[track_caller]
pub fn chance(certainty: &Certainty, entry: &str, marks: &str) -> f64 {
    let found = certainty.criteria.iter().find(|one| one.entry == entry);
    let found = found.unwrap_or_else(|| panic!("{entry} is not weighed"));
    let chances = found.chances.iter();
    let mut same = chances.filter(|chance| chance.marks.exact_text() == marks);
    same.next().map_or(0.0, |chance| chance.probability)
}
