use super::super::chance::normal_quantile;
use super::super::numbers::{
    at_least, confidence, finite, mean, number, over, rounding, side_by_side, squares,
};
use super::super::{Interval, Lacking};

/// How near pairs of scores lie to the line of equality.
#[derive(Debug, Clone, PartialEq)]
pub struct Concordance {
    /// From -1 to 1.
    pub value: f64,
    /// Pearson's correlation: how near they lie to some line.
    pub correlation: f64,
    /// How near that line is to that of equality, 1 for the same: the value by the correlation.
    pub accuracy: f64,
    /// Its interval.
    pub interval: Result<Interval, Lacking>,
}

/// Lin's concordance correlation coefficient of two raters' scores side by side.
///
/// *Formula:* `2 s12 / (s1^2 + s2^2 + (mean1 - mean2)^2)`, variances by `n` (Lin 1989). The
/// interval is that of its inverse hyperbolic tangent, with the variance there and its
/// correction (Lin 2000), written here in the accuracy instead of the value by the
/// correlation, so that a correlation of 0 has one too.
///
/// # Errors
/// `Gaps` for lists of different lengths, `TooFew` for fewer than two pairs, `NoSpread` where
/// one rater's scores are all alike. The interval lacks for two pairs, and where all scores
/// are equal or all opposite.
pub fn concordance(first: &[f64], second: &[f64], level: f64) -> Result<Concordance, Lacking> {
    let level = confidence(level)?;
    side_by_side(first, second, 2)?;
    let count = number(first.len());
    let (mean_1, mean_2) = (mean(first), mean(second));
    let variance = |scores: &[f64]| over(rounding(scores, count), squares(scores)) / count;
    let (variance_1, variance_2) = (variance(first), variance(second));
    if variance_1 <= 0.0 || variance_2 <= 0.0 {
        return Err(Lacking::NoSpread("the scores of one rater"));
    }
    let pairs = first.iter().zip(second);
    let products = pairs.map(|(one, other)| (one - mean_1) * (other - mean_2));
    let together = products.sum::<f64>() / count;
    let deviations = variance_1.sqrt() * variance_2.sqrt();
    let shift = (mean_1 - mean_2).powi(2);
    let all = finite(variance_1 + variance_2 + shift, "the variance of scores")?;
    let value = finite(2.0 * together / all, "the variance of scores")?;
    let correlation = finite(together / deviations, "the variance of scores")?;
    let accuracy = 2.0 * deviations / all;
    let lin = Lin {
        value,
        correlation,
        accuracy,
        shift: shift / deviations,
    };
    Ok(Concordance {
        value,
        correlation,
        accuracy,
        interval: lin.interval(first.len(), level),
    })
}

/// What the variance of the transformed value is made of.
struct Lin {
    value: f64,
    correlation: f64,
    accuracy: f64,
    /// The squared difference of means by the product of the standard deviations.
    shift: f64,
}

impl Lin {
    fn interval(&self, pairs: usize, level: f64) -> Result<Interval, Lacking> {
        at_least(pairs, 3, "pairs of scores")?;
        // The transformation of a value so near 1 is not finite, or nothing but rounding.
        const NEAR: f64 = 1e-12;
        let left = 1.0 - self.value.powi(2);
        if left <= NEAR {
            return Err(Lacking::NoSpread("the distances from the line of equality"));
        }
        let Self {
            value,
            correlation,
            accuracy,
            shift,
        } = *self;
        let scatter = (1.0 - correlation.powi(2)) * accuracy.powi(2) / left;
        let shifted = 2.0 * value.powi(2) * accuracy * (1.0 - value) * shift / left.powi(2);
        let twice = (value * accuracy * shift / left).powi(2) / 2.0;
        let variance = finite(scatter + shifted - twice, "the variance of scores")?;
        let error = (variance.max(0.0) / (number(pairs) - 2.0)).sqrt();
        let reach = normal_quantile((1.0 - level) / 2.0)? * error;
        let middle = value.atanh();
        Ok(Interval {
            low: (middle - reach).tanh(),
            high: (middle + reach).tanh(),
            level,
        })
    }
}
