//! Marks, reasons, states, stops, causes and award: text in, text out.

mod agree;
mod award;
mod cut;
mod faults;
pub mod heat_log;
mod impression;
mod instruments;
mod measured;
mod outline;
mod props;
mod stated;
mod tally;

use evenshod::marking::{Facts, Marking, mark};
use evenshod::rubric::{Rubric, read_rubric};

/// A rubric with these sections and award; the piece does not matter here.
#[track_caller]
pub fn rubric(rest: &str) -> Rubric {
    let text = format!(
        r#"
schema = 1
id = "try"
version = 1
title = "Try"
{rest}
[piece]
kind = "straight bar"
stock = {{ width = "3/4 in", thickness = "3/8 in" }}
finished = {{ width = "129 mm", length = "134 mm" }}
bar = {{ width = "20 mm", gap = "40 mm" }}
"#
    );
    let checked = read_rubric(&text);
    let faults: Vec<String> = checked.errors().map(ToString::to_string).collect();
    checked
        .rubric
        .unwrap_or_else(|| panic!("{}", faults.join("\n")))
}

/// A rubric of one section with these criteria.
#[track_caller]
pub fn criteria(criteria: &str) -> Rubric {
    rubric(&format!(
        r#"
award = {{ pass = "65 %" }}
[[sections]]
id = "all"
name = "All"
{criteria}
"#
    ))
}

#[track_caller]
pub fn facts(json: &str) -> Facts {
    serde_json::from_str(json).unwrap()
}

/// One line a criterion: id, state, marks and reason; then award and problems.
pub fn told(marking: &Marking) -> String {
    let mut lines: Vec<String> = marking
        .criteria
        .iter()
        .map(|result| format!("{} [{}] {}", result.id, result.state.word(), result.reason))
        .collect();
    lines.push(format!(
        "{} of {}: {}",
        marking.marks,
        marking.out_of,
        marking.award.word()
    ));
    lines.extend(
        marking
            .stopped_by
            .iter()
            .map(|id| format!("stopped by {id}")),
    );
    let problems = marking.problems.iter();
    lines.extend(problems.map(|problem| format!("! {}: {}", problem.id, problem.message)));
    lines.join("\n")
}

#[track_caller]
pub fn check(rubric: &Rubric, json: &str, expect: &str) {
    let expect: Vec<&str> = expect.trim().lines().map(str::trim).collect();
    assert_eq!(told(&mark(rubric, &facts(json))), expect.join("\n"));
}
