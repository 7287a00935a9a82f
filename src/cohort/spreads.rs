use super::matrix::{Cell, cell};
use super::person::{Cohort, Person};
use super::rates::enough;
use crate::figures::{Lacking, Quartiles, quartiles};
use crate::quantity::Exact;

/// How the learners of a group are spread over one criterion.
#[derive(Debug, Clone, PartialEq)]
pub struct Spread {
    /// Number of the column.
    pub column: usize,
    /// How many learners have marks for it.
    pub learners: usize,
    /// How many of them have all of its marks.
    pub at_most: usize,
    /// How many of them have none.
    pub at_least: usize,
    /// Quartiles of their shares, each the median of that learner's latest pieces; lacking
    /// of too few learners. Where they lack, none of these numbers is to be shown.
    pub quartiles: Result<Quartiles, Lacking>,
}

/// What the latest pieces of one learner come to, for each column.
pub fn medians(cohort: &Cohort, person: &Person) -> Vec<Option<Cell>> {
    let columns = 0..cohort.plan.columns.len();
    columns.map(|column| median(person, column)).collect()
}

/// What all marks of the latest pieces of one learner come to.
pub(super) fn median_of_all(person: &Person) -> Option<Cell> {
    let shares = person.latest();
    let shares = shares.filter_map(|(piece, _)| piece.marks.0.over(piece.out_of.0));
    cell(shares.collect())
}

pub(super) fn median(person: &Person, column: usize) -> Option<Cell> {
    let shares = person.latest().filter_map(|(_, detail)| {
        let (marks, out_of) = (*detail.criteria.get(column)?)?;
        marks.0.over(out_of.0)
    });
    cell(shares.collect())
}

/// How learners are spread over each criterion, in the order of the columns.
pub fn spreads(cohort: &Cohort) -> Vec<Spread> {
    let columns = 0..cohort.plan.columns.len();
    columns.map(|column| spread(cohort, column)).collect()
}

fn spread(cohort: &Cohort, column: usize) -> Spread {
    let shares = cohort
        .people
        .iter()
        .filter_map(|person| median(person, column));
    let shares: Vec<Exact> = shares.map(|cell| cell.share).collect();
    let numbers: Vec<f64> = shares.iter().map(|share| share.to_f64()).collect();
    let having = |wanted: Exact| shares.iter().filter(|share| **share == wanted).count();
    Spread {
        column,
        learners: shares.len(),
        at_most: having(Exact::ONE),
        at_least: having(Exact::ZERO),
        quartiles: enough(shares.len()).and_then(|()| quartiles(&numbers)),
    }
}
