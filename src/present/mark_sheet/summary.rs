use std::collections::BTreeMap;

use crate::chart::Drawing;
use crate::marking::{Facts, Marking as Result};
use crate::rubric::{Kind, Rubric};
use crate::sheet::marks_ruler;

use super::plan::{Part, Row};

/// The line at the foot of the sheet.
#[derive(Debug, Clone, PartialEq)]
pub struct Summary {
    /// Marks so far.
    pub marks: String,
    /// "of 82 so far", or "of 100".
    pub of: String,
    /// What is to come, what passes, what is missing.
    pub rest: String,
    /// Any stop, in words; empty for none.
    pub stop: String,
    /// Marks on a ruler.
    pub ruler: Drawing,
    /// Ids of the document of the rows that are missing, in the sheet's order.
    pub missing: Vec<String>,
}

/// Sums up the whole sheet.
pub fn summary(parts: &[Part], result: &Result) -> Summary {
    let rows = parts.iter().flat_map(|part| &part.rows);
    let is_missing = |row: &&Row| !row.unmarked && result.missing.contains(&row.id);
    let missing: Vec<String> = rows.filter(is_missing).map(|row| row.dom.clone()).collect();
    let to_come = result
        .out_of
        .minus(result.marked_out_of)
        .unwrap_or(result.out_of);
    let (marks, pass) = (result.marks.to_string(), result.pass_mark.to_string());
    let of = if missing.is_empty() {
        format!("of {}", result.out_of)
    } else {
        format!("of {} so far", result.marked_out_of)
    };
    let rest = if missing.is_empty() {
        format!("{pass} to pass: {}", result.award.word())
    } else {
        format!(
            "{to_come} to come, {pass} to pass, {} missing",
            missing.len()
        )
    };
    let standing: Vec<&str> = result
        .stops
        .iter()
        .filter(|stop| stop.lifted.is_none())
        .map(|stop| stop.why.as_str())
        .collect();
    let stop = if standing.is_empty() {
        String::new()
    } else {
        format!("Stopped: {}", standing.join("; "))
    };
    Summary {
        marks,
        of,
        rest,
        stop,
        ruler: marks_ruler(result),
        missing,
    }
}

/// How a part of the sheet stands.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PartState {
    /// "10 of 20", empty where nothing is marked there.
    pub marks: String,
    /// "2 missing" or "done".
    pub words: String,
}

/// How `part` stands.
pub fn part_state(part: &Part, result: &Result) -> PartState {
    let marked = part.rows.iter().filter(|row| !row.unmarked);
    let found: Vec<_> = marked.filter_map(|row| result.criterion(&row.id)).collect();
    let missing = found.iter().filter(|found| found.marks.is_none()).count();
    let sum = |of: fn(&crate::marking::CriterionResult) -> Option<crate::quantity::Marks>| {
        crate::quantity::Marks::sum(found.iter().filter_map(|found| of(found)))
    };
    let marks = sum(|found| found.marks).zip(sum(|found| Some(found.out_of)));
    PartState {
        marks: match marks {
            Some((marks, out_of)) if !found.is_empty() => format!("{marks} of {out_of}"),
            _ => String::new(),
        },
        words: match (found.is_empty(), missing) {
            (true, _) => "as needed".to_owned(),
            (false, 0) => "done".to_owned(),
            (false, missing) => format!("{missing} missing"),
        },
    }
}

/// Fault lists that nobody looked at yet, each as "none seen".
pub fn untouched_fault_lists(
    rubric: &Rubric,
    facts: &Facts,
) -> BTreeMap<String, Option<Vec<String>>> {
    let lists = rubric.entries();
    let lists = lists
        .iter()
        .filter(|entry| matches!(entry.criterion.kind, Kind::Faults(_)));
    lists
        .filter(|entry| {
            !facts.faults.contains_key(&entry.id) && !facts.states.contains_key(&entry.id)
        })
        .map(|entry| (entry.id.clone(), Some(Vec::new())))
        .collect()
}
