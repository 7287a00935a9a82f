use super::super::chance::chi_squared_quantile;
use super::super::numbers::{all_finite, at_least, confidence, finite, number, squares};
use super::super::{Interval, Lacking};

/// How far values of one thing scatter about its mean.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Within {
    /// The standard deviation, pooled over all things.
    pub deviation: f64,
    /// Degrees of freedom behind it.
    pub df: f64,
    /// Its interval, for normal deviations.
    pub interval: Interval,
    /// What two values of one thing differ by at most in 19 of 20 cases.
    pub limit: f64,
}

/// The pooled standard deviation within groups, each the values of one thing: of several
/// operators it is that of reproducibility, of one operator's repeats that of repeatability.
///
/// *Formulas:* `s = sqrt(sum of squares about each group's mean / sum of (n - 1))`
/// (ISO 5725-2:2019, 7.4, for groups of any size); the interval of `s` by chi-squared on
/// these degrees of freedom; the limit is `1.96 sqrt(2) s` (ISO 5725-6:1994, 4.1, where it
/// is rounded to 2.8 s). Groups of one value say nothing and are left out.
///
/// # Errors
/// `TooFew` where no group has two values, `NotANumber` for a value that is not finite or a
/// level that is none.
pub fn within(groups: &[Vec<f64>], level: f64) -> Result<Within, Lacking> {
    let level = confidence(level)?;
    let groups: Vec<&Vec<f64>> = groups.iter().filter(|group| group.len() > 1).collect();
    at_least(groups.len(), 1, "things with two values")?;
    let (mut sum, mut df) = (0.0, 0.0);
    for group in groups {
        all_finite(group, "a value")?;
        sum += squares(group);
        df += number(group.len()) - 1.0;
    }
    let deviation = finite((sum / df).sqrt(), "the spread of values")?;
    let tail = (1.0 - level) / 2.0;
    Ok(Within {
        deviation,
        df,
        interval: Interval {
            low: (sum / chi_squared_quantile(tail, df)?).sqrt(),
            high: (sum / chi_squared_quantile(1.0 - tail, df)?).sqrt(),
            level,
        },
        limit: 1.96 * std::f64::consts::SQRT_2 * deviation,
    })
}
