use std::sync::Arc;

use serde::{Deserialize, Serialize};

use super::group::members;
use super::latest::{Asked, Read, Stood, stood};
use crate::marking::{self, mark_in};
use crate::quantity::Exact;
use crate::records::{Learner, Ledger};
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

/// One learner.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Row<'a> {
    /// Who.
    pub learner: &'a Learner,
    /// All marks together; `None` where no piece counts.
    pub total: Option<Cell>,
    /// One for each column; `None` where no piece has marks for it.
    pub cells: Vec<Option<Cell>>,
}

/// Learners by criterion.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Matrix<'a> {
    /// The rubric as the piece made last was marked by it; `None` where no piece counts.
    pub rubric: Option<Arc<Rubric>>,
    /// Its criteria, in its order.
    pub columns: Vec<Column>,
    /// The learners of the group, by name.
    pub rows: Vec<Row<'a>>,
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

/// Learners by criterion, from the latest whole pieces of each.
///
/// *Cost:* only as many pieces of each learner are marked as it takes to find the latest
/// whole ones.
pub fn matrix<'a>(ledger: &'a Ledger, read: Read<'_>, asked: &Asked) -> Matrix<'a> {
    let mut last: Option<Stood<'_>> = None;
    let mut marked: Vec<(&Learner, Vec<marking::Marking>)> = Vec::new();
    for learner in members(ledger, asked.group) {
        let mut outcomes = Vec::new();
        for found in stood(ledger, read, asked, learner.id) {
            let outcome = marks(ledger, &found);
            let is_later =
                |last: &Stood<'_>| (last.day, last.piece.id) < (found.day, found.piece.id);
            if last.as_ref().is_none_or(is_later) {
                last = Some(found);
            }
            if outcome.complete {
                outcomes.push(outcome);
            }
            if outcomes.len() >= asked.latest.max(1) {
                break;
            }
        }
        marked.push((learner, outcomes));
    }
    let rubric = last.map(|stood| stood.rubric);
    let columns = rubric.as_deref().map(columns).unwrap_or_default();
    let rows = marked
        .into_iter()
        .map(|(learner, outcomes)| row(learner, &outcomes, &columns));
    Matrix {
        rows: rows.collect(),
        columns,
        rubric,
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

fn row<'a>(learner: &'a Learner, outcomes: &[marking::Marking], columns: &[Column]) -> Row<'a> {
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
        learner,
        total: cell(totals.collect()),
        cells: cells.collect(),
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
