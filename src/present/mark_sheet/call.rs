use crate::conformity::Certainty;
use crate::marking::Marking as Result;
use crate::sheet::remeasure_words;

use super::plan::Part;

/// That measuring again could change a row's marks.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Call {
    /// Id of the row in the document.
    pub dom: String,
    /// What it is called: a close call, or a decisive one.
    pub word: &'static str,
    /// Whether the award, or a section's minimum, could change by it.
    pub is_decisive: bool,
    /// How sure its marks are and what would make them surer, with the row's name.
    pub text: String,
}

/// The close calls among `parts`, in their order. One whose marks have changed since
/// `certainty` was worked out is left out.
pub fn calls(parts: &[Part], result: &Result, certainty: &Certainty) -> Vec<Call> {
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
                text: remeasure_words(&row.name, one),
            })
        })
        .collect()
}
