use nalgebra::{DMatrix, DVector, SymmetricEigen};

use super::super::Lacking;
use super::super::numbers::{at_least, finite, mean, number, over, rounding, squares};
use super::ratings::Ratings;

/// Components of the variance of one score, in the square of its unit. As they come out: one
/// of `targets` and `raters` is negative where chance makes it so.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Components {
    /// Between targets.
    pub targets: f64,
    /// Between raters.
    pub raters: f64,
    /// What neither explains.
    pub residual: f64,
}

impl Components {
    /// The share of targets in the variance of the mean of `of` raters' scores: the absolute
    /// agreement, `t / (t + (r + e) / of)` (Shrout and Fleiss 1979, case 2).
    ///
    /// # Errors
    /// `NotPositive` where the variance comes out as nothing or less.
    pub fn agreement(&self, of: f64) -> Result<f64, Lacking> {
        // Of parts that cancel out, rounding may leave this much of their sizes.
        const ROUNDING: f64 = 1e-12;
        let parts = [self.targets, self.raters / of, self.residual / of];
        let all: f64 = parts.iter().sum();
        let sizes: f64 = parts.iter().map(|part| part.abs()).sum();
        if all <= ROUNDING * sizes {
            return Err(Lacking::NotPositive("the variance of scores"));
        }
        finite(self.targets / all, "the components of variance")
    }
}

/// The components of variance of a table that may have empty cells, targets and raters both
/// drawn at random. Rows and columns without a score are left out.
///
/// *Method:* fitting constants (Henderson 1953, method 3; Searle, Casella and McCulloch 1992,
/// chapter 5), without interaction. With `N` scores of `a` targets by `b` raters in `c`
/// unconnected parts, `e = SSE / (N - a - b + c)` from the least-squares fit of targets and
/// raters, `t = SS within raters / (N - b) - e` and `r = SS within targets / (N - a) - e`. The
/// two sums have these expectations whatever cells are empty. Without empty cells all three
/// are those of the mean squares. It needs no normal scores and no search.
///
/// # Errors
/// `TooFew` where no degree of freedom is left for the residual or there is but one target or
/// rater, `NoSpread` where all scores are alike, `NotANumber` where squares are too large.
pub fn components(ratings: &Ratings) -> Result<Components, Lacking> {
    let scores: Vec<f64> = ratings.scores().collect();
    let rows: Vec<Vec<f64>> = filled(ratings.scores_of_targets());
    let columns: Vec<Vec<f64>> = filled((0..ratings.raters()).map(|rater| column(ratings, rater)));
    at_least(rows.len(), 2, "targets with a score")?;
    at_least(columns.len(), 2, "raters with a score")?;
    let fit = Fit::of(ratings);
    let df = (scores.len() + fit.parts).saturating_sub(rows.len() + columns.len());
    at_least(df, 1, "degrees of freedom of the residual")?;
    let floor = rounding(&scores, number(rows.len() + columns.len()));
    let within = |lines: &[Vec<f64>]| {
        let sum = lines.iter().map(|line| squares(line)).sum::<f64>();
        let df = number(scores.len() - lines.len());
        finite(over(floor, sum) / df, "the sum of squares")
    };
    let residual = finite(over(floor, fit.residual) / number(df), "the sum of squares")?;
    let (in_rows, in_columns) = (within(&rows)?, within(&columns)?);
    if in_rows + in_columns <= 0.0 {
        return Err(Lacking::NoSpread("the scores"));
    }
    Ok(Components {
        targets: in_columns - residual,
        raters: in_rows - residual,
        residual,
    })
}

fn filled(lines: impl Iterator<Item = Vec<f64>>) -> Vec<Vec<f64>> {
    lines.filter(|line| !line.is_empty()).collect()
}

fn column(ratings: &Ratings, rater: usize) -> Vec<f64> {
    let cells = ratings.rows().map(|row| row.get(rater).copied().flatten());
    cells.flatten().collect()
}

/// The least-squares fit of one constant to each target and one to each rater.
struct Fit {
    /// The sum of squares that it leaves.
    residual: f64,
    /// How many parts there are that no rater or target connects.
    parts: usize,
}

impl Fit {
    /// Targets are taken out first, so that the equations are as many as raters. Their matrix
    /// is that of a graph's Laplacian: it has one zero eigenvalue for each unconnected part.
    fn of(ratings: &Ratings) -> Self {
        let size = ratings.raters();
        let mut matrix = DMatrix::<f64>::zeros(size, size);
        let mut right = DVector::<f64>::zeros(size);
        let mut without_score = vec![true; size];
        for row in ratings.rows() {
            let scored = scored(row);
            let count = number(scored.len());
            let middle = mean_of(&scored);
            for (at, score) in &scored {
                add(&mut right, *at, score - middle);
                if let Some(without) = without_score.get_mut(*at) {
                    *without = false;
                }
                for (other, _) in &scored {
                    let own = f64::from(u8::from(at == other));
                    if let Some(cell) = matrix.get_mut((*at, *other)) {
                        *cell += own - 1.0 / count;
                    }
                }
            }
        }
        let eigen = SymmetricEigen::new(matrix);
        let largest = eigen
            .eigenvalues
            .iter()
            .fold(0.0_f64, |most, one| most.max(*one));
        let least = largest * number(size) * 1e-12;
        let turned = eigen.eigenvectors.tr_mul(&right);
        let pairs = turned.iter().zip(eigen.eigenvalues.iter());
        let solved = pairs.map(|(part, value)| if *value > least { part / value } else { 0.0 });
        let effects = &eigen.eigenvectors * DVector::from_iterator(size, solved);
        let zeros = eigen
            .eigenvalues
            .iter()
            .filter(|value| **value <= least)
            .count();
        let empty = without_score.iter().filter(|without| **without).count();
        Self {
            residual: left_over(ratings, &effects),
            parts: zeros.saturating_sub(empty),
        }
    }
}

/// The scores of a row with the places of their raters.
fn scored(row: &[Option<f64>]) -> Vec<(usize, f64)> {
    let cells = row.iter().enumerate();
    cells
        .filter_map(|(at, cell)| Some((at, (*cell)?)))
        .collect()
}

fn mean_of(scored: &[(usize, f64)]) -> f64 {
    mean(&scored.iter().map(|(_, score)| *score).collect::<Vec<_>>())
}

fn add(vector: &mut DVector<f64>, at: usize, value: f64) {
    if let Some(cell) = vector.get_mut(at) {
        *cell += value;
    }
}

/// The sum of squares that is left of each row once raters' effects and its mean are gone.
fn left_over(ratings: &Ratings, effects: &DVector<f64>) -> f64 {
    let rows = ratings.rows().map(|row| {
        let off = scored(row).into_iter().map(|(at, score)| {
            let effect = effects.get(at).copied().unwrap_or_default();
            score - effect
        });
        squares(&off.collect::<Vec<_>>())
    });
    rows.sum()
}
