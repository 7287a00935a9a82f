use super::person::Cohort;
use super::rates::{LEAST_LEARNERS, RATE_LEVEL, enough};
use crate::figures::Lacking;
use crate::figures::items::{
    Alpha, Item, PassReliability, Totals, alpha, conditional_error_near, error_of_measurement,
    items, pass_reliability, totals,
};
use crate::quantity::{Exact, Marks};

/// The rubric as a test: each learner's latest whole piece is a row, each criterion an item.
#[derive(Debug, Clone, PartialEq)]
pub struct AsTest {
    /// How many learners are in it: those whose piece has marks for every criterion, by the
    /// version of the piece made last, of as many marks as there.
    pub learners: usize,
    /// Numbers of the columns that are items; criteria without marks are none.
    pub columns: Vec<usize>,
    /// Mean and standard deviation of the sums over the items.
    pub totals: Totals,
    /// Most marks of all items together.
    pub out_of: f64,
    /// How far criteria go together.
    pub alpha: Result<Alpha, Lacking>,
    /// The standard error of measurement of the sum, by that alpha.
    pub error: Result<f64, Lacking>,
    /// The sum that passes: the pass mark's share of the sums' most.
    pub pass: f64,
    /// The error of the sums of those nearest to that, from their own marks alone.
    pub error_near_pass: Result<f64, Lacking>,
    /// How far the decision can be relied on, by that alpha.
    pub decision: Result<PassReliability, Lacking>,
    /// Each item's figures.
    pub items: Vec<Item>,
}

/// What test theory says of the rubric in this group. The sums are those of the criteria,
/// before sections are capped or weighted.
///
/// *Errors:* [`Lacking::TooFew`] learners, or what the figures say of these marks.
pub fn as_test(cohort: &Cohort) -> Result<AsTest, Lacking> {
    type Cells = Vec<Option<(Marks, Marks)>>;
    let latest = cohort
        .people
        .iter()
        .filter_map(|person| person.latest().next_back());
    let latest: Vec<_> = latest.collect();
    enough(latest.len())?;
    let newest = latest
        .iter()
        .max_by_key(|(piece, _)| (piece.day, piece.piece));
    let (newest, like) = newest.ok_or(Lacking::Gaps("pieces"))?;
    let has_marks =
        |cell: &Option<(Marks, Marks)>| cell.is_some_and(|(_, most)| most > Marks::ZERO);
    let columns = like.criteria.iter().enumerate();
    let columns = columns.filter(|(_, cell)| has_marks(cell));
    let columns: Vec<usize> = columns.map(|(column, _)| column).collect();
    let most_of = |cells: &Cells, column: usize| Some((*cells.get(column)?)?.1);
    let is_like = |cells: &Cells| {
        let mut columns = columns.iter();
        columns.all(|column| most_of(cells, *column) == most_of(&like.criteria, *column))
    };
    let row = |cells: &Cells| -> Option<Vec<f64>> {
        let marks = columns
            .iter()
            .map(|column| (*cells.get(*column)?).map(|cell| cell.0));
        marks.map(|marks| Some(marks?.0.to_f64())).collect()
    };
    let alike = latest
        .iter()
        .filter(|(piece, detail)| piece.version == newest.version && is_like(&detail.criteria));
    let rows: Vec<Vec<f64>> = alike
        .filter_map(|(_, detail)| row(&detail.criteria))
        .collect();
    enough(rows.len())?;
    let most = columns
        .iter()
        .filter_map(|column| most_of(&like.criteria, *column));
    let most: Vec<f64> = most.map(|most| most.0.to_f64()).collect();
    let alpha = alpha(&rows, RATE_LEVEL);
    let totals = totals(&rows)?;
    let error = alpha.clone();
    let out_of: f64 = most.iter().sum();
    let pass = newest.pass_mark.0.over(newest.out_of.0);
    let pass = pass.map_or(0.0, Exact::to_f64) * out_of;
    let decision = alpha.clone();
    let decision = decision.and_then(|alpha| {
        pass_reliability(totals.mean, totals.deviation, alpha.alpha, pass, CONTINUOUS)
    });
    Ok(AsTest {
        pass,
        error_near_pass: conditional_error_near(&rows, pass, LEAST_LEARNERS),
        decision,
        learners: rows.len(),
        items: items(&rows, &most)?,
        out_of,
        error: error.and_then(|alpha| error_of_measurement(totals.deviation, alpha.alpha)),
        alpha,
        totals,
        columns,
    })
}

/// Half marks and tenths of criteria make sums that are near enough to continuous.
const CONTINUOUS: f64 = 0.0;
