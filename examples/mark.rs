//! Marks facts from standard input against a rubric file; see README.md here.

use std::collections::BTreeMap;
use std::io::{Read, Write};
use std::process::ExitCode;

use evenshod::conformity::mark_and_decide;
use evenshod::marking::{Award, Facts, Marking, Point, Settled, Source, agree};
use evenshod::quantity::print_decimal;
use evenshod::rubric::{Rubric, read_rubric};
use serde::Deserialize;
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
    let given = Given::read(&text)?;
    let marked: Vec<Marking> = given
        .examiners
        .iter()
        .map(|facts| mark_and_decide(&rubric, facts, rubric.unit))
        .collect();
    refuse_problems(&marked)?;
    let (mut marking, open) = match marked.as_slice() {
        [one] => (one.clone(), None),
        _ => {
            let (marking, open) = together(&rubric, &given, &marked)?;
            (marking, Some(open))
        }
    };
    let count = marked.len();
    if u32::try_from(count).is_ok_and(|count| count < rubric.examiners) {
        marking.award = Award::Incomplete;
        let need = rubric.examiners;
        let why = format!("{count} of {need} examiners marked it; fewer give no result");
        marking.award_reasons.insert(0, why);
    }
    let mut answer = answer(&marking);
    if let (Some(open), Some(map)) = (open, answer.as_object_mut()) {
        map.insert("open".to_owned(), json!(open));
    }
    Ok(answer.to_string())
}

/// What stands on standard input.
struct Given {
    /// The facts of each examiner, at least one.
    examiners: Vec<Facts>,
    /// What they settled, by entry; a marking is told by its place, from 0.
    settled: BTreeMap<String, Settled<usize>>,
}

impl Given {
    /// One examiner's facts, a list of several, or an object with both.
    fn read(text: &str) -> Result<Self, String> {
        #[derive(Deserialize)]
        #[serde(deny_unknown_fields)]
        struct Several {
            examiners: Vec<Facts>,
            #[serde(default)]
            settled: BTreeMap<String, Settled<usize>>,
        }
        let wrong = |fault: serde_json::Error| {
            format!("the facts are not as examples/README.md describes: {fault}")
        };
        let value: Value = serde_json::from_str(text).map_err(wrong)?;
        let (examiners, settled) = if value.is_array() {
            (serde_json::from_str(text).map_err(wrong)?, BTreeMap::new())
        } else if value.get("examiners").is_some() {
            let several: Several = serde_json::from_str(text).map_err(wrong)?;
            (several.examiners, several.settled)
        } else {
            (
                vec![serde_json::from_str(text).map_err(wrong)?],
                BTreeMap::new(),
            )
        };
        if examiners.is_empty() {
            return Err("there are no examiners; give the facts of one at least".to_owned());
        }
        Ok(Self { examiners, settled })
    }
}

/// The agreed marking of several examiners, and the ids of what they have to settle.
fn together(
    rubric: &Rubric,
    given: &Given,
    marked: &[Marking],
) -> Result<(Marking, Vec<String>), String> {
    let names: Vec<String> = (1..=given.examiners.len())
        .map(|number| format!("examiner {number}"))
        .collect();
    let facts = given.examiners.iter().zip(&names).enumerate();
    let sources: Vec<Source<'_, usize>> = facts
        .map(|(id, (facts, who))| Source {
            id,
            who,
            facts,
            unit: rubric.unit,
        })
        .collect();
    let agreed = agree(rubric, &sources, &given.settled, &Facts::default());
    refuse_problems(std::slice::from_ref(&agreed.outcome))?;
    let open: Vec<String> = agreed
        .open()
        .map(|point: &Point| point.entry.clone())
        .collect();
    let mut marking = agreed.outcome;
    let awards: Vec<Award> = marked.iter().map(|one| one.award).collect();
    if rubric.moderation.third_examiner && matches!(awards.as_slice(), [a, b] if a != b) {
        marking.award = Award::Incomplete;
        let why = "the awards of the two examiners differ; the rubric asks for a third then";
        marking.award_reasons.insert(0, why.to_owned());
    }
    Ok((marking, open))
}

fn refuse_problems(marked: &[Marking]) -> Result<(), String> {
    let lines: Vec<String> = marked
        .iter()
        .flat_map(|marking| &marking.problems)
        .map(|problem| format!("{}: {}", problem.id, problem.message))
        .collect();
    if lines.is_empty() {
        Ok(())
    } else {
        Err(lines.join("\n"))
    }
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
        "award_reasons": marking.award_reasons,
        "stopped_by": marking.stopped_by,
        "criteria": criteria,
    })
}
