use super::super::Lacking;
use super::super::numbers::{at_least, finite, mean, number, over, rounding};
use super::ratings::Ratings;

/// The mean squares of a table without empty cells, in the square of the scores' unit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MeanSquares {
    /// How many targets there are, as a number.
    pub targets: f64,
    /// How many raters there are, as a number.
    pub raters: f64,
    /// Between targets, on `targets - 1` degrees of freedom.
    pub between: f64,
    /// Within targets, on `targets (raters - 1)`.
    pub within: f64,
    /// Between raters, on `raters - 1`.
    pub judges: f64,
    /// What targets and raters leave, on `(targets - 1) (raters - 1)`.
    pub error: f64,
}

/// The analysis of variance of a table with one score to a cell.
///
/// *Formula:* Shrout and Fleiss (1979), table 1. Sums are taken over differences from the
/// grand mean, so that large scores that differ little lose nothing.
///
/// # Errors
/// `Gaps` for an empty cell, `TooFew` for fewer than two targets or raters, `NoSpread` where
/// all scores are alike, `NotANumber` where squares are too large for a number.
pub fn mean_squares(ratings: &Ratings) -> Result<MeanSquares, Lacking> {
    let scores = ratings.complete()?;
    at_least(ratings.targets(), 2, "targets")?;
    at_least(ratings.raters(), 2, "raters")?;
    let width = ratings.raters();
    let (targets, raters) = (number(ratings.targets()), number(width));
    let grand = mean(&scores);
    let rows: Vec<f64> = scores.chunks_exact(width).map(mean).collect();
    let mut columns = vec![0.0; width];
    for row in scores.chunks_exact(width) {
        for (column, score) in columns.iter_mut().zip(row) {
            *column += (score - grand) / targets;
        }
    }
    let (mut within, mut error) = (0.0, 0.0);
    for (row, middle) in scores.chunks_exact(width).zip(&rows) {
        for (score, column) in row.iter().zip(&columns) {
            within += (score - middle).powi(2);
            error += (score - middle - column).powi(2);
        }
    }
    let between: f64 = rows.iter().map(|row| (row - grand).powi(2)).sum();
    let judges: f64 = columns.iter().map(|column| column.powi(2)).sum();
    let floor = rounding(&scores, targets + raters);
    let square = |sum: f64, df: f64| finite(over(floor, sum) / df, "the sum of squares");
    let found = MeanSquares {
        targets,
        raters,
        between: square(raters * between, targets - 1.0)?,
        within: square(within, targets * (raters - 1.0))?,
        judges: square(targets * judges, raters - 1.0)?,
        error: square(error, (targets - 1.0) * (raters - 1.0))?,
    };
    if found.between + found.within > 0.0 {
        Ok(found)
    } else {
        Err(Lacking::NoSpread("the scores"))
    }
}
