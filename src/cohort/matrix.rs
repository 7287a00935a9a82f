use serde::{Deserialize, Serialize};

use super::latest::{Asked, Read, Stood, stood};
use crate::marking::{self, mark_in};
use crate::quantity::Exact;
use crate::records::{LearnerId, Ledger};
use crate::rubric::Rubric;

/// A criterion as a column.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Column {
    /// Entry id.
    pub id: String,
    /// What people call it.
    pub name: String,
    /// Name of its section.
    pub section: String,
}

/// What the latest pieces of one learner come to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Cell {
    /// The median of the shares of what could be had, from 0 to 1; of an even number the
    /// mean of the two middle ones.
    pub share: Exact,
    /// How many pieces are behind it.
    pub pieces: usize,
}

/// What the latest pieces of one learner come to.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Row {
    /// All marks together; `None` where no piece counts.
    pub total: Option<Cell>,
    /// One for each column; `None` where no piece has marks for it.
    pub cells: Vec<Option<Cell>>,
}

/// The criteria of `rubric` as columns.
pub fn columns(rubric: &Rubric) -> Vec<Column> {
    let entries = rubric.entries();
    let column = entries.iter().map(|entry| Column {
        id: entry.id.clone(),
        name: entry.name(),
        section: entry.section.name.clone(),
    });
    column.collect()
}

/// The latest whole pieces of a learner, by criterion.
///
/// *Shape:* a cell for each of `columns`. *Cost:* only as many pieces are marked as it takes
/// to find the latest whole ones; of many learners a page does this one by one.
pub fn row(
    ledger: &Ledger,
    read: Read<'_>,
    asked: &Asked,
    columns: &[Column],
    learner: LearnerId,
) -> Row {
    let outcomes = stood(ledger, read, asked, learner).map(|found| marks(ledger, &found));
    let whole = outcomes.filter(|outcome| outcome.complete);
    let outcomes: Vec<marking::Marking> = whole.take(asked.latest.max(1)).collect();
    let totals = outcomes
        .iter()
        .filter_map(|outcome| outcome.marks.0.over(outcome.out_of.0));
    let cells = columns.iter().map(|column| {
        let shares = outcomes
            .iter()
            .filter_map(|outcome| outcome.criterion(&column.id)?.share());
        cell(shares.collect())
    });
    Row {
        total: cell(totals.collect()),
        cells: cells.collect(),
    }
}

/// What a piece was given, without the award: that may have to be guarded, which takes long.
fn marks(ledger: &Ledger, stood: &Stood<'_>) -> marking::Marking {
    let (marking, rubric) = (stood.marking, &stood.rubric);
    match marking.agreement {
        Some(_) => ledger.marked(marking, rubric),
        None => mark_in(rubric, &marking.facts, marking.unit),
    }
}

/// The median of shares; `None` of none.
pub(super) fn cell(mut shares: Vec<Exact>) -> Option<Cell> {
    shares.sort();
    let pieces = shares.len();
    let high = *shares.get(pieces / 2)?;
    let low = *shares.get(pieces.checked_sub(1)? / 2)?;
    Some(Cell {
        share: Exact::mean(&[low, high])?,
        pieces,
    })
}
