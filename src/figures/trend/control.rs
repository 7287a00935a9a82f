use serde::Serialize;

use crate::figures::Lacking;
use crate::figures::numbers::{all_finite, at_least, mean, number};

/// Mean of the range of two values over their standard deviation (ISO 7870-2, d2 for n = 2).
const RANGE_OF_TWO: f64 = 1.128;
/// Upper limit of the range of two over its mean (ISO 7870-2, D4 for n = 2).
const UPPER_RANGE: f64 = 3.267;

/// A chart of single values.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Individuals {
    /// Mean of the values.
    pub mean: f64,
    /// Mean of the differences of neighbours, without their signs.
    pub mean_range: f64,
    /// Three standard deviations below the mean, those by the mean range.
    pub low: f64,
    /// The same above it.
    pub high: f64,
    /// Upper limit of a difference of neighbours.
    pub high_range: f64,
}

/// The limits of a chart of single values.
///
/// *Source:* NIST/SEMATECH e-Handbook, 6.3.2.2.
///
/// *Errors:* fewer than five values, all alike, or a number that is not finite.
pub fn individuals(values: &[f64]) -> Result<Individuals, Lacking> {
    at_least(values.len(), 5, "values")?;
    all_finite(values, "values")?;
    let ranges = values.iter().zip(values.iter().skip(1));
    let ranges: Vec<f64> = ranges.map(|(one, next)| (next - one).abs()).collect();
    let (mean, mean_range) = (mean(values), mean(&ranges));
    if mean_range <= 0.0 {
        return Err(Lacking::NoSpread("values"));
    }
    let off = 3.0 * mean_range / RANGE_OF_TWO;
    Ok(Individuals {
        mean,
        mean_range,
        low: mean - off,
        high: mean + off,
        high_range: UPPER_RANGE * mean_range,
    })
}

/// A value of a weighted mean of all values so far, with its limits.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Ewma {
    /// The weighted mean.
    pub value: f64,
    /// Its lower limit here.
    pub low: f64,
    /// Its upper limit here.
    pub high: f64,
}

/// Exponentially weighted moving averages from `target` on: each is `weight` of the newest
/// value and the rest of the one before. `deviation` is the standard deviation of one value,
/// and the limits are so many times (`width`) that of the average at its place: narrower at
/// the start than later.
///
/// *Source:* NIST/SEMATECH e-Handbook, 6.3.2.4; exact limits: Montgomery, Introduction to
/// Statistical Quality Control, equation 9.25.
///
/// *Errors:* no values, a number that is not finite, a weight outside of 0 to 1, or a
/// deviation that is not above 0.
pub fn ewma(
    values: &[f64],
    target: f64,
    deviation: f64,
    weight: f64,
    width: f64,
) -> Result<Vec<Ewma>, Lacking> {
    at_least(values.len(), 1, "values")?;
    all_finite(values, "values")?;
    all_finite(
        &[target, deviation, weight, width],
        "target, deviation, weight and width",
    )?;
    if !(weight > 0.0 && weight <= 1.0) {
        return Err(Lacking::NotANumber("weight"));
    }
    if deviation <= 0.0 {
        return Err(Lacking::NoSpread("values"));
    }
    let mut last = target;
    let averages = (1..).zip(values).map(|(at, value)| {
        last = weight * value + (1.0 - weight) * last;
        let left = (1.0 - weight).powf(2.0 * number(at));
        let off = width * deviation * (weight / (2.0 - weight) * (1.0 - left)).sqrt();
        Ewma {
            value: last,
            low: target - off,
            high: target + off,
        }
    });
    Ok(averages.collect())
}

/// Sums of what values are off their target beyond what is allowed.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Cusum {
    /// Upwards, value by value.
    pub high: Vec<f64>,
    /// Downwards.
    pub low: Vec<f64>,
    /// Place of the first value at which either sum passes its limit, from 0.
    pub first: Option<usize>,
}

/// The tabular cumulative sums of values around `target`: what each is off by more than
/// `slack` adds up, and below 0 a sum begins anew. A sum above `limit` is a signal.
///
/// *Source:* NIST/SEMATECH e-Handbook, 6.3.2.3.
///
/// *Errors:* no values, a number that is not finite, or a slack or limit below 0.
pub fn cusum(values: &[f64], target: f64, slack: f64, limit: f64) -> Result<Cusum, Lacking> {
    at_least(values.len(), 1, "values")?;
    all_finite(values, "values")?;
    all_finite(&[target, slack, limit], "target, slack and limit")?;
    if slack < 0.0 || limit < 0.0 {
        return Err(Lacking::NotANumber("slack or limit"));
    }
    let sums = |sign: f64| {
        let mut sum = 0.0f64;
        let sums = values.iter().map(|value| {
            sum = (sum + sign * (value - target) - slack).max(0.0);
            sum
        });
        sums.collect::<Vec<f64>>()
    };
    let (high, low) = (sums(1.0), sums(-1.0));
    let first = high
        .iter()
        .zip(&low)
        .position(|(high, low)| *high > limit || *low > limit);
    Ok(Cusum { high, low, first })
}
