use super::super::numbers::{at_least, finite, midranks, number, runs, squares};
use super::super::{Lacking, Resampling, Spread};
use super::bootstrap::bootstrap;
use super::ratings::Ratings;

/// How far two scores are from each other (Krippendorff 2019, chapter 12).
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Metric {
    /// Equal or not.
    Nominal,
    /// By how many scores lie between them.
    Ordinal,
    /// By their difference.
    Interval,
    /// By their difference in proportion to their sum; no score may be below 0.
    Ratio,
}

/// Krippendorff's alpha: 1 for perfect agreement, 0 for as much as chance gives. Targets that
/// fewer than two raters scored do not count.
///
/// *Formula:* `1 - Do / De` (Krippendorff 2019, chapter 12). With `D` the mean squared distance
/// of two scores of a set, `De` is that of all scores together and `Do` the mean of those of
/// the targets, each weighted by its number of scores. The ordinal distance is the difference of midranks among all, as
/// the sum over the ranks between two categories is.
///
/// # Errors
/// `TooFew` without a target that two raters scored, `NoSpread` where these scores are all
/// alike, `NotANumber` for a ratio of scores below 0, or squares too large for a number.
pub fn alpha(ratings: &Ratings, metric: Metric) -> Result<f64, Lacking> {
    let units: Vec<Vec<f64>> = ratings
        .scores_of_targets()
        .filter(|scores| scores.len() > 1)
        .collect();
    at_least(units.len(), 1, "targets that two raters scored")?;
    let all = units.concat();
    if metric == Metric::Ratio && all.iter().any(|score| *score < 0.0) {
        return Err(Lacking::NotANumber("a score below 0 on a ratio scale"));
    }
    if all.iter().all(|score| Some(score) == all.first()) {
        return Err(Lacking::NoSpread("the scores"));
    }
    let all = match metric {
        Metric::Ordinal => midranks(&all),
        Metric::Nominal | Metric::Interval | Metric::Ratio => all,
    };
    let mut rest = all.as_slice();
    let mut observed = 0.0;
    for unit in &units {
        let (own, others) = rest.split_at_checked(unit.len()).unwrap_or_default();
        observed += number(own.len()) * distance(metric, own);
        rest = others;
    }
    let expected = number(all.len()) * distance(metric, &all);
    finite(1.0 - observed / expected, "the distances of scores")
}

/// The interval of alpha by drawing targets anew; see [`bootstrap`]. The distances expected are
/// worked out again in each draw.
///
/// # Errors
/// Those of [`alpha`] and of [`bootstrap`].
pub fn alpha_bootstrap(
    ratings: &Ratings,
    metric: Metric,
    draws: &Resampling,
) -> Result<Spread, Lacking> {
    bootstrap(ratings, draws, |drawn| alpha(drawn, metric))
}

/// The mean squared distance of two of the values, of which there are two at least.
fn distance(metric: Metric, values: &[f64]) -> f64 {
    let count = number(values.len());
    let pairs = count * (count - 1.0) / 2.0;
    let apart: fn(f64, f64) -> f64 = match metric {
        // The squared differences of all pairs sum up to the count times those from the mean.
        Metric::Ordinal | Metric::Interval => return count * squares(values) / pairs,
        Metric::Nominal => |_, _| 1.0,
        Metric::Ratio => |low, high| (high - low) / (high + low),
    };
    let mut sorted = values.to_vec();
    sorted.sort_unstable_by(f64::total_cmp);
    let runs = runs(&sorted);
    let sum: f64 = runs
        .iter()
        .enumerate()
        .flat_map(|(at, low)| runs.iter().skip(at + 1).map(move |high| (low, high)))
        .map(|((low, some), (high, others))| some * others * apart(*low, *high).powi(2))
        .sum();
    sum / pairs
}
