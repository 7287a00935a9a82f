//! Marks facts from standard input against a rubric file; see README.md here.

use std::io::{Read, Write};
use std::process::ExitCode;

use evenshod::conformity::mark_and_decide;
use evenshod::marking::{Facts, Marking};
use evenshod::quantity::print_decimal;
use evenshod::rubric::{Rubric, read_rubric};
use serde_json::{Value, json};

fn main() -> ExitCode {
    let answer = run();
    let (text, code) = match &answer {
        Ok(json) => (json, ExitCode::SUCCESS),
        Err(message) => (message, ExitCode::from(2)),
    };
    let written = if answer.is_ok() {
        writeln!(std::io::stdout(), "{text}")
    } else {
        writeln!(std::io::stderr(), "{text}")
    };
    if written.is_err() {
        ExitCode::FAILURE
    } else {
        code
    }
}

fn run() -> Result<String, String> {
    let mut arguments = std::env::args().skip(1);
    let (Some(path), None) = (arguments.next(), arguments.next()) else {
        return Err("write: mark RUBRIC.toml < facts.json".to_owned());
    };
    let rubric = rubric_at(&path)?;
    let mut text = String::new();
    std::io::stdin()
        .read_to_string(&mut text)
        .map_err(|fault| format!("the facts on standard input cannot be read: {fault}"))?;
    let facts: Facts = serde_json::from_str(&text)
        .map_err(|fault| format!("the facts are not as examples/README.md describes: {fault}"))?;
    let marking = mark_and_decide(&rubric, &facts, rubric.unit);
    if marking.problems.is_empty() {
        return Ok(answer(&marking).to_string());
    }
    let lines = marking
        .problems
        .iter()
        .map(|problem| format!("{}: {}", problem.id, problem.message));
    Err(lines.collect::<Vec<_>>().join("\n"))
}

fn rubric_at(path: &str) -> Result<Rubric, String> {
    let text = std::fs::read_to_string(path)
        .map_err(|fault| format!("the rubric {path} cannot be read: {fault}"))?;
    let checked = read_rubric(&text);
    let faults: Vec<String> = checked
        .errors()
        .map(|found| format!("{path}: {found}"))
        .collect();
    checked.rubric.ok_or_else(|| faults.join("\n"))
}

fn answer(marking: &Marking) -> Value {
    let criteria: Vec<Value> = marking
        .criteria
        .iter()
        .map(|result| {
            json!({
                "id": result.id,
                "state": result.state.word(),
                "marks": result.marks.map(|marks| marks.exact_text()),
                "out_of": result.out_of.exact_text(),
                "reason": result.reason,
            })
        })
        .collect();
    let percent: Value =
        serde_json::from_str(&print_decimal(marking.percent, 6)).unwrap_or(Value::Null);
    json!({
        "complete": marking.complete,
        "missing": marking.missing,
        "marks": marking.marks.exact_text(),
        "out_of": marking.out_of.exact_text(),
        "percent": percent,
        "award": marking.award.word(),
        "stopped_by": marking.stopped_by,
        "criteria": criteria,
    })
}
