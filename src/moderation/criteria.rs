//! How far examiners lie apart on each criterion.

use std::cmp::Reverse;

use super::blind::{By, Gathered, pairs};
use super::judged::{JudgedFigures, judged};
use super::readings::{ReadingFigures, readings};
use crate::marking::ResultState;
use crate::quantity::{Exact, Marks};
use crate::rubric::{Entry, Kind};

/// One criterion as several examiners have it.
#[derive(Debug, Clone, PartialEq)]
pub struct CriterionAgreement {
    /// Entry id.
    pub id: String,
    /// What people call it.
    pub name: String,
    /// Name of its section.
    pub section: String,
    /// Most marks that it can give.
    pub out_of: Marks,
    /// How many pieces two examiners gave marks for it.
    pub pieces: usize,
    /// How many pairs of examiners there are on these pieces.
    pub pairs: usize,
    /// In how many of them both gave the same marks.
    pub same: usize,
    /// The mean over pieces of how many marks two examiners lie apart; nothing without a
    /// piece.
    pub apart: Option<Exact>,
    /// What suits the kind of criterion.
    pub figures: CriterionFigures,
}

/// Figures by the kind of criterion.
#[derive(Debug, Clone, PartialEq)]
pub enum CriterionFigures {
    /// Of readings.
    Measured(Box<ReadingFigures>),
    /// Of levels given by eye.
    Judged(Box<JudgedFigures>),
    /// Of counts and faults there are no others than the marks.
    Counted,
}

/// Marks that an examiner gave; nothing where it does not apply or has none.
fn marks(by: &By<'_>, entry: &str) -> Option<Exact> {
    let result = by.outcome.criterion(entry)?;
    let applies = result.state != ResultState::NotApplicable;
    result.marks.filter(|_| applies).map(|marks| marks.0)
}

/// Every criterion, the one first on which two examiners lie most marks apart, as that is
/// what it costs a candidate to have the one and not the other; equal ones, and those
/// without a figure at the end, in the order of the rubric. `tell` hears how many are done.
pub(super) fn criteria(
    gathered: &Gathered<'_>,
    tell: &mut dyn FnMut(usize, usize),
) -> Vec<CriterionAgreement> {
    let entries = gathered.rubric.entries();
    let mut found = Vec::new();
    for entry in &entries {
        found.push(criterion(gathered, entry));
        tell(found.len(), entries.len());
    }
    // The sort keeps the order of the rubric among equals; nothing comes after all else.
    found.sort_by_key(|one| Reverse(one.apart));
    found
}

fn criterion(gathered: &Gathered<'_>, entry: &Entry<'_>) -> CriterionAgreement {
    let give = |by: &By<'_>| marks(by, &entry.id);
    let apart = gathered
        .twice
        .iter()
        .filter_map(|seen| seen.mean_apart(give));
    let apart: Vec<Exact> = apart.collect();
    let (mut all, mut same) = (0, 0);
    for seen in &gathered.twice {
        let given: Vec<Exact> = seen.by.iter().filter_map(give).collect();
        all += pairs(&given).count();
        same += pairs(&given).filter(|(one, other)| one == other).count();
    }
    let figures = match (&entry.criterion.kind, entry.criterion.scale()) {
        (_, Some(scale)) => CriterionFigures::Measured(Box::new(readings(gathered, entry, scale))),
        (Kind::Judged(kind), None) => {
            CriterionFigures::Judged(Box::new(judged(gathered, entry, kind)))
        }
        _ => CriterionFigures::Counted,
    };
    CriterionAgreement {
        id: entry.id.clone(),
        name: entry.name(),
        section: entry.section.name.clone(),
        out_of: entry.criterion.out_of().unwrap_or(Marks::ZERO),
        pieces: apart.len(),
        pairs: all,
        same,
        apart: Exact::mean(&apart),
        figures,
    }
}
