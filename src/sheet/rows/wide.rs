//! Rows of markings, one a marking and one column a criterion.

use crate::records::{Layout, MARKS};
use crate::rubric::Entry;

use super::long::{handed, whole};
use super::{Field, Rows, rows_of};
use crate::sheet::scored::Scored;

/// Markings as rows, one a marking; the marks of each criterion stand in a column of its
/// own, `marks.` and the id of its line on the mark sheet.
///
/// The columns of criteria come in the order of the rubrics, each once; a row is empty under
/// one that its rubric does not have. *Marks* are decimals of at most six places.
pub fn wide_rows(markings: &[Scored<'_>]) -> Rows {
    let rows = markings.iter().map(|scored| {
        let whole = whole(scored).into_iter();
        whole.chain(handed(scored)).collect()
    });
    let mut rows = rows_of(Layout::Wide, rows);
    let Some(at) = rows.columns.iter().position(|column| column == MARKS) else {
        return rows;
    };
    let ids = entry_ids(markings);
    let keys = ids.iter().map(|id| format!("{MARKS}.{id}"));
    rows.columns.splice(at..=at, keys);
    for (row, scored) in rows.rows.iter_mut().zip(markings) {
        row.splice(at..=at, ids.iter().map(|id| marks(scored, id)));
    }
    rows
}

fn entry_ids<'a>(markings: &'a [Scored<'_>]) -> Vec<&'a str> {
    let mut ids: Vec<&str> = Vec::new();
    let mut seen = std::collections::BTreeSet::new();
    for Entry { id, .. } in markings.iter().flat_map(|scored| &scored.entries) {
        if seen.insert(id.as_str()) {
            ids.push(id);
        }
    }
    ids
}

fn marks(scored: &Scored<'_>, id: &str) -> Field {
    let result = scored.outcome.criterion(id);
    let marks = result.and_then(|result| result.marks);
    marks.map_or_else(Field::empty, |marks| Field::decimal(marks.0))
}
