use crate::job::Outcome;
use crate::marking::Marking as Result;
use crate::sheet::remeasure_words;

use super::plan::Part;

/// That measuring again could change a row's marks.
#[derive(Debug, Clone, PartialEq)]
pub struct Call {
    /// Id of the row in the document.
    pub dom: String,
    /// What it is called: a close call, or a decisive one.
    pub word: &'static str,
    /// Whether the award, or a section's minimum, could change by it.
    pub is_decisive: bool,
    /// Probability that it does.
    pub changes: f64,
    /// How sure its marks are and what would make them surer, with the row's name.
    pub text: String,
}

/// The close calls among `parts`, in their order. One whose marks have changed since
/// the worker came to `outcome` is left out.
pub fn calls(parts: &[Part], result: &Result, outcome: &Outcome) -> Vec<Call> {
    let Outcome::Certainty(certainty) = outcome else {
        return Vec::new();
    };
    let rows = parts.iter().flat_map(|part| &part.rows);
    let marked = rows.filter(|row| !row.unmarked);
    marked
        .filter_map(|row| {
            let mut close = certainty.criteria.iter().filter(|one| one.is_close);
            let one = close.find(|one| one.entry == row.id)?;
            let marks = result.criterion(&row.id)?.marks?;
            (marks == one.given).then(|| Call {
                dom: row.dom.clone(),
                word: if one.is_decisive {
                    "Decisive"
                } else {
                    "Close call"
                },
                is_decisive: one.is_decisive,
                changes: one.changes,
                text: remeasure_words(&row.name, one),
            })
        })
        .collect()
}

/// Decisive calls that are named on top of a sheet at most.
const NAMED: usize = 3;

/// The decisive ones of `calls` that are named on top, those first that change the award
/// most probably, and how many more there are.
pub fn decisive_first(calls: &[Call]) -> (Vec<Call>, usize) {
    let mut decisive: Vec<Call> = calls
        .iter()
        .filter(|call| call.is_decisive)
        .cloned()
        .collect();
    decisive.sort_by(|a, b| b.changes.total_cmp(&a.changes));
    let more = decisive.len().saturating_sub(NAMED);
    decisive.truncate(NAMED);
    (decisive, more)
}
