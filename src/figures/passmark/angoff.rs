use serde::Serialize;

use super::super::numbers::{all_finite, mean, number, variance};
use super::super::table::{Shape, Table};
use super::super::{Lacking, Resampling, Spread};

/// A pass mark by what judges expect of a borderline candidate.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Angoff {
    /// The mean of the judges' cuts, in marks.
    pub cut: f64,
    /// Each judge's cut: the sum of expected marks.
    pub by_judge: Vec<f64>,
    /// Of each item the mean expected mark.
    pub by_item: Vec<f64>,
    /// Standard deviation of the judges' cuts, divisor n - 1.
    pub deviation: f64,
    /// Standard error of the cut: the deviation over the root of the number of judges.
    pub standard_error: f64,
    /// The cut over judges drawn anew.
    pub spread: Spread,
}

/// The modified Angoff method: each judge says of each item what share of its marks a
/// borderline candidate would get; the cut is the mean over judges of the sum of shares times
/// marks (Angoff 1971, with shares instead of yes and no).
///
/// `shares` has a row for each judge with a share from 0 to 1 for each item, `most` the marks
/// of each item. `resampling` draws whole judges.
///
/// # Errors
///
/// Fewer than two judges, no item, a share missing or outside 0 to 1, another number of
/// `most` than items or one that is not above 0, and those of the resampling.
pub fn angoff(
    shares: &[Vec<f64>],
    most: &[f64],
    resampling: Resampling,
) -> Result<Angoff, Lacking> {
    let shape = Shape {
        rows: ("judges", 2),
        columns: ("items", 1),
        cells: "judgements",
    };
    let table = Table::of(shares, &shape)?;
    let is_share = |share: &f64| (0.0..=1.0).contains(share);
    if !table.rows().iter().flatten().all(is_share) {
        return Err(Lacking::NotANumber("a share"));
    }
    if most.len() != table.columns().len() {
        return Err(Lacking::Gaps("the most of each item"));
    }
    all_finite(most, "the most of an item")?;
    if most.iter().any(|most| *most <= 0.0) {
        return Err(Lacking::NotANumber("the most of an item"));
    }
    let cut = |row: &Vec<f64>| row.iter().zip(most).map(|(share, most)| share * most).sum();
    let by_judge: Vec<f64> = table.rows().iter().map(cut).collect();
    all_finite(&by_judge, "a cut of so large marks")?;
    let columns = table.columns().iter().zip(most);
    let by_item = columns.map(|(shares, most)| mean(shares) * most).collect();
    let deviation = variance(&by_judge).sqrt();
    let spread = resampling.spread(by_judge.len(), |drawn| {
        let drawn: Vec<f64> = drawn
            .iter()
            .filter_map(|at| by_judge.get(*at).copied())
            .collect();
        Some(mean(&drawn))
    })?;
    Ok(Angoff {
        cut: mean(&by_judge),
        deviation,
        standard_error: deviation / number(by_judge.len()).sqrt(),
        by_judge,
        by_item,
        spread,
    })
}
