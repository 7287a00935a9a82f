use super::super::Lacking;
use super::super::numbers::{at_least, midranks, number, runs};
use super::ratings::Ratings;
use super::tests::ChiSquaredTest;

/// How alike several raters rank the targets.
#[derive(Debug, Clone, PartialEq)]
pub struct Kendall {
    /// From 0 to 1, corrected for ties.
    pub value: f64,
    /// The mean of Spearman's rank correlations of all pairs of raters, where none has ties.
    pub mean_correlation: f64,
    /// Whether they rank alike at all, `m (n - 1) W`: the statistic of Friedman's test. For
    /// few targets its probability is rough.
    pub test: ChiSquaredTest,
}

/// Kendall's coefficient of concordance of a table without empty cells.
///
/// *Formula:* with `m` raters, `n` targets, the squared deviations `S` of the sums of midranks
/// from their mean and `T = sum (t^3 - t)` over the ties of all raters,
/// `W = 12 S / (m^2 (n^3 - n) - m T)` (Kendall 1948; Siegel and Castellan 1988, chapter 9). The
/// mean correlation is `(m W - 1) / (m - 1)` (Kendall and Babington Smith 1939).
///
/// # Errors
/// `Gaps` for an empty cell, `TooFew` for fewer than two targets or raters, `NoSpread` where
/// no rater tells any two targets apart.
pub fn kendall_w(ratings: &Ratings) -> Result<Kendall, Lacking> {
    let scores = ratings.complete()?;
    at_least(ratings.targets(), 2, "targets")?;
    at_least(ratings.raters(), 2, "raters")?;
    let (raters, targets) = (number(ratings.raters()), number(ratings.targets()));
    let mut sums = vec![0.0; ratings.targets()];
    let mut ties = 0.0;
    for rater in 0..ratings.raters() {
        let mut own: Vec<f64> = scores
            .iter()
            .skip(rater)
            .step_by(ratings.raters())
            .copied()
            .collect();
        for (sum, rank) in sums.iter_mut().zip(midranks(&own)) {
            *sum += rank;
        }
        own.sort_unstable_by(f64::total_cmp);
        ties += runs(&own)
            .iter()
            .map(|(_, size)| size.powi(3) - size)
            .sum::<f64>();
    }
    let middle = raters * (targets + 1.0) / 2.0;
    let squares: f64 = sums.iter().map(|sum| (sum - middle).powi(2)).sum();
    let most = raters.powi(2) * (targets.powi(3) - targets) - raters * ties;
    if most <= 0.0 {
        return Err(Lacking::NoSpread("the ranks that each rater gave"));
    }
    let value = 12.0 * squares / most;
    let statistic = raters * (targets - 1.0) * value;
    Ok(Kendall {
        value,
        mean_correlation: (raters * value - 1.0) / (raters - 1.0),
        test: ChiSquaredTest::of(statistic, targets - 1.0)?,
    })
}
