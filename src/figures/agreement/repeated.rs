use super::super::Lacking;
use super::super::numbers::{at_least, finite, mean, number, squares};
use super::limits::{Limits, LimitsAsked, Spread};

/// The scores of one target, by each of two ways of scoring.
#[derive(Debug, Clone, PartialEq)]
pub struct Repeated {
    /// By the first.
    pub first: Vec<f64>,
    /// By the second.
    pub second: Vec<f64>,
}

/// Limits of agreement of single scores where each target was scored several times by both,
/// and what is scored does not change meanwhile. Numbers of scores may differ.
///
/// *Formula:* `s^2 = s_dd^2 + (1 - mean 1/m1) s_w1^2 + (1 - mean 1/m2) s_w2^2`, the variance of
/// the differences of targets' means and those within targets, and the bias is the mean of
/// these differences (Bland and Altman 1999, 5.1 and 5.2). The variance of `s^2` is the sum of
/// `2 c^2 s^4 / df` over the three, as there for one (5.1); `t` on `n - 1` degrees of freedom.
///
/// # Errors
/// `TooFew` for fewer than two targets, or for a target without a score; `NotANumber` for a
/// score that is not finite.
pub fn bland_altman_constant(targets: &[Repeated], asked: LimitsAsked) -> Result<Limits, Lacking> {
    checked(targets)?;
    let count = number(targets.len());
    let differences: Vec<f64> = targets
        .iter()
        .map(|target| mean(&target.first) - mean(&target.second))
        .collect();
    let between = Part {
        share: 1.0,
        variance: squares(&differences) / (count - 1.0),
        df: count - 1.0,
    };
    let parts = [
        Some(between),
        Part::within(targets.iter().map(|target| target.first.as_slice())),
        Part::within(targets.iter().map(|target| target.second.as_slice())),
    ];
    let parts: Vec<Part> = parts.into_iter().flatten().collect();
    let of_mean = parts.first().map_or(0.0, |between| between.variance) / count;
    spread(&parts, mean(&differences), of_mean, count).limits(asked)
}

/// Limits of agreement of single scores where each target was scored several times by both in
/// pairs, and what is scored may change from pair to pair.
///
/// *Formula:* of the differences of pairs, with the mean squares between and within targets
/// of a one-way analysis of variance and `m0 = ((sum m)^2 - sum m^2) / ((n - 1) sum m)`,
/// `s^2 = MSW + (MSB - MSW) / m0`; the bias is the mean of all differences (Bland and Altman
/// 2007, 3). The standard error of the bias takes its variance between targets as 0 where it
/// comes out negative; that of `s^2` is the sum of `2 c^2 MS^2 / df`, rough where numbers of
/// pairs differ; `t` on `n - 1` degrees of freedom.
///
/// # Errors
/// `TooFew` for fewer than two targets, for a target without a pair, or where no target has
/// two pairs; `Gaps` where a score has no partner; `NotANumber` for one that is not finite.
pub fn bland_altman_varying(targets: &[Repeated], asked: LimitsAsked) -> Result<Limits, Lacking> {
    checked(targets)?;
    if targets
        .iter()
        .any(|one| one.first.len() != one.second.len())
    {
        return Err(Lacking::Gaps("the pairs of scores"));
    }
    let differences: Vec<Vec<f64>> = targets
        .iter()
        .map(|one| {
            one.first
                .iter()
                .zip(&one.second)
                .map(|(a, b)| a - b)
                .collect()
        })
        .collect();
    let all = differences.concat();
    at_least(all.len(), targets.len() + 1, "pairs of scores")?;
    let (count, pairs) = (number(targets.len()), number(all.len()));
    let bias = mean(&all);
    let sizes = differences.iter().map(|own| number(own.len()).powi(2));
    let squared_sizes: f64 = sizes.sum();
    let size = (pairs * pairs - squared_sizes) / ((count - 1.0) * pairs);
    let off = differences
        .iter()
        .map(|own| number(own.len()) * (mean(own) - bias).powi(2));
    let between = off.sum::<f64>() / (count - 1.0);
    let within = differences.iter().map(|own| squares(own)).sum::<f64>() / (pairs - count);
    let of_targets = ((between - within) / size).max(0.0);
    let of_mean = (of_targets * squared_sizes / pairs + within) / pairs;
    let parts = [
        Part {
            share: 1.0 / size,
            variance: between,
            df: count - 1.0,
        },
        Part {
            share: 1.0 - 1.0 / size,
            variance: within,
            df: pairs - count,
        },
    ];
    spread(&parts, bias, of_mean, count).limits(asked)
}

fn checked(targets: &[Repeated]) -> Result<(), Lacking> {
    at_least(targets.len(), 2, "targets")?;
    for target in targets {
        at_least(target.first.len(), 1, "scores of a target")?;
        at_least(target.second.len(), 1, "scores of a target")?;
        let scores = target.first.iter().chain(&target.second);
        for score in scores {
            finite(*score, "a score")?;
        }
    }
    Ok(())
}

/// A variance, how much of it counts, and its degrees of freedom.
struct Part {
    share: f64,
    variance: f64,
    df: f64,
}

impl Part {
    /// Within targets; `None` where each was scored once, as nothing of it counts then.
    fn within<'s>(targets: impl Iterator<Item = &'s [f64]> + Clone) -> Option<Self> {
        let scores: usize = targets.clone().map(<[f64]>::len).sum();
        let count = targets.clone().count();
        let df = number(scores - count);
        let once: f64 = targets.clone().map(|own| 1.0 / number(own.len())).sum();
        (df > 0.0).then(|| Self {
            share: 1.0 - once / number(count),
            variance: targets.map(squares).sum::<f64>() / df,
            df,
        })
    }
}

fn spread(parts: &[Part], mean: f64, of_mean: f64, count: f64) -> Spread {
    let variances = parts.iter().map(|part| part.share * part.variance);
    let errors = parts
        .iter()
        .map(|part| 2.0 * (part.share * part.variance).powi(2) / part.df);
    Spread {
        mean,
        of_mean,
        variance: variances.sum(),
        of_variance: errors.sum(),
        df: count - 1.0,
    }
}
