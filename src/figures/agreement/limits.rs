use super::super::chance::{normal_quantile, t_quantile};
use super::super::numbers::{confidence, finite, mean, number, share, side_by_side, squares};
use super::super::{Interval, Lacking};

/// What limits of agreement are asked for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LimitsAsked {
    /// The share of differences that should lie between the limits, of normal ones.
    pub coverage: f64,
    /// The level of confidence of the intervals.
    pub level: f64,
}

impl Default for LimitsAsked {
    /// 95 % both.
    fn default() -> Self {
        Self {
            coverage: 0.95,
            level: 0.95,
        }
    }
}

/// A value with its standard error and interval.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Estimate {
    /// The value.
    pub value: f64,
    /// Its standard error.
    pub error: f64,
    /// Its interval, by Student's t.
    pub interval: Interval,
}

/// Between which limits the differences of two ways of scoring lie, first less second.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Limits {
    /// The mean difference.
    pub bias: Estimate,
    /// The standard deviation of the difference of one score of each.
    pub deviation: f64,
    /// The lower limit.
    pub low: Estimate,
    /// The upper limit.
    pub high: Estimate,
}

/// Limits of agreement of two raters' scores side by side, one pair to a target.
///
/// *Formulas:* `mean - z s` and `mean + z s` of the differences (Bland and Altman 1986, with
/// the normal quantile where they round it to 2). Standard errors: `s / sqrt n` of the mean,
/// `s sqrt(1 / n + z^2 / (2 (n - 1)))` of a limit (Bland and Altman 1999, 2.2), intervals by
/// `t` on `n - 1` degrees of freedom.
///
/// # Errors
/// `Gaps` for lists of different lengths, `TooFew` for fewer than two pairs, `NotANumber` for
/// a score that is not finite, or a level that is none.
pub fn bland_altman(first: &[f64], second: &[f64], asked: LimitsAsked) -> Result<Limits, Lacking> {
    side_by_side(first, second, 2)?;
    let pairs = first.iter().zip(second);
    let differences: Vec<f64> = pairs.map(|(first, second)| first - second).collect();
    let count = number(differences.len());
    let variance = squares(&differences) / (count - 1.0);
    Spread {
        mean: mean(&differences),
        of_mean: variance / count,
        variance,
        of_variance: 2.0 * variance.powi(2) / (count - 1.0),
        df: count - 1.0,
    }
    .limits(asked)
}

/// What limits are made of.
pub(super) struct Spread {
    /// The mean difference.
    pub mean: f64,
    /// The variance of that mean.
    pub of_mean: f64,
    /// The variance of a difference.
    pub variance: f64,
    /// The variance of that variance.
    pub of_variance: f64,
    /// Degrees of freedom of the intervals.
    pub df: f64,
}

impl Spread {
    /// A limit is `mean + z s`; with mean and `s` independent its variance is
    /// `Var mean + z^2 Var s`, and `Var s = Var s^2 / (4 s^2)` to first order (Bland and
    /// Altman 1999, 2.2 and 5.1).
    pub fn limits(&self, asked: LimitsAsked) -> Result<Limits, Lacking> {
        let coverage = share(asked.coverage, "the share of differences")?;
        let level = confidence(asked.level)?;
        let z = normal_quantile((1.0 - coverage) / 2.0)?;
        let t = t_quantile((1.0 - level) / 2.0, self.df)?;
        let deviation = finite(self.variance.sqrt(), "the variance of differences")?;
        let of_deviation = if self.variance > 0.0 {
            self.of_variance / (4.0 * self.variance)
        } else {
            0.0
        };
        let estimate = |value: f64, variance: f64| {
            let error = finite(variance.sqrt(), "the variance of differences")?;
            let value = finite(value, "the mean difference")?;
            Ok(Estimate {
                value,
                error,
                interval: Interval {
                    low: value - t * error,
                    high: value + t * error,
                    level,
                },
            })
        };
        let of_limit = self.of_mean + z * z * of_deviation;
        Ok(Limits {
            bias: estimate(self.mean, self.of_mean)?,
            deviation,
            low: estimate(self.mean - z * deviation, of_limit)?,
            high: estimate(self.mean + z * deviation, of_limit)?,
        })
    }
}
