//! The average-and-range method.

use serde::Serialize;
use statrs::distribution::{Continuous as _, Normal};

use super::super::Lacking;
use super::super::chance::normal_below;
use super::super::numbers::{all_finite, mean, number};
use super::crossed::Crossed;
use super::deviations::Deviations;

/// A gauge study by averages and ranges.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct RangeStudy {
    /// Mean range of the trials of one part by one operator.
    pub mean_range: f64,
    /// Range of the operators' means.
    pub operator_range: f64,
    /// Range of the parts' means.
    pub part_range: f64,
    /// The standard deviations.
    pub deviations: Deviations,
}

impl Crossed {
    /// The study by averages and ranges (AIAG, 4th edition, chapter III-B): a range over its
    /// expected size in standard deviations is an estimate of one. Repeatability is the mean
    /// range times `K1`, reproducibility `sqrt((range K2)^2 - repeatability^2 / (parts
    /// trials))` or 0 where that does not exist, part variation the range of means times
    /// `K3`. An operator's way with single parts is not told apart from repeatability.
    ///
    /// `K1` is `1 / d2`, as AIAG takes it for many ranges; `K2` and `K3` are one over
    /// [`range_divisor`] of one range. AIAG prints them with four digits, here they are
    /// worked out.
    ///
    /// # Errors
    ///
    /// Readings so large that a range is not finite.
    pub fn by_ranges(&self) -> Result<RangeStudy, Lacking> {
        let ranges: Vec<f64> = self.cells().map(range).collect();
        let mean_range = mean(&ranges);
        let operator_range = range(&self.operator_means());
        let part_range = range(&self.part_means());
        let within = (mean_range / expected_range(self.trials()).mean).powi(2);
        let each = number(self.parts() * self.trials());
        let between = (operator_range / range_divisor(self.operators(), 1)).powi(2);
        let between = (between - within / each).max(0.0);
        let part = (part_range / range_divisor(self.parts(), 1)).powi(2);
        all_finite(&[within, between, part], "a range of so large readings")?;
        Ok(RangeStudy {
            mean_range,
            operator_range,
            part_range,
            deviations: Deviations::of_variances(within, between, part),
        })
    }
}

fn range(values: &[f64]) -> f64 {
    let most = values.iter().fold(f64::NEG_INFINITY, |a, b| a.max(*b));
    let least = values.iter().fold(f64::INFINITY, |a, b| a.min(*b));
    most - least
}

/// Moments of a range.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct RangeMoments {
    /// Its mean, `d2`.
    pub mean: f64,
    /// Its standard deviation, `d3`.
    pub deviation: f64,
}

/// Mean and standard deviation of the range of `size` independent standard normal values,
/// `d2` and `d3`; nothing for a size below 2.
///
/// *Formula:* the integrals over `r` from 0 of `1 - F(r)` and of `2 r (1 - F(r))`, where `F` is
/// the distribution function of the range (Tippett 1925), by the double exponential rule
/// `r = exp(u - exp(-u))` (Takahasi and Mori 1974).
#[must_use]
pub fn expected_range(size: usize) -> RangeMoments {
    // From r = 2e-13 to r = 15, beyond which there is nothing to add.
    const FROM: i32 = -26;
    const TO: i32 = 22;
    const STEP: f64 = 0.125;
    if size < 2 {
        return RangeMoments {
            mean: 0.0,
            deviation: 0.0,
        };
    }
    let (mut mean, mut square) = (0.0, 0.0);
    for at in FROM..=TO {
        let u = f64::from(at) * STEP;
        let r = (u - (-u).exp()).exp();
        let above = r * (1.0 + (-u).exp()) * STEP * (1.0 - range_below(r, size));
        mean += above;
        square += 2.0 * r * above;
    }
    RangeMoments {
        mean,
        deviation: (square - mean * mean).max(0.0).sqrt(),
    }
}

/// Probability that the range of `size` standard normal values is at most `r`:
/// `size` times the integral of `density(x) (below(x + r) - below(x))^(size - 1)`, by the
/// trapezoidal rule, whose error for such integrands falls faster than any power of the step.
fn range_below(r: f64, size: usize) -> f64 {
    const STEP: f64 = 0.15;
    const NODES: i32 = 56;
    let normal = Normal::standard();
    let power = number(size - 1);
    let node = |at: i32| {
        let x = f64::from(at) * STEP;
        normal.pdf(x) * (normal_below(x + r) - normal_below(x)).powf(power)
    };
    (-NODES..=NODES).map(node).sum::<f64>() * STEP * number(size)
}

/// The divisor `d2*` that makes the mean of `count` ranges of `size` values an estimate of
/// the standard deviation whose square is without bias: `sqrt(d2^2 + d3^2 / count)` (Duncan
/// 1955; David 1951).
#[must_use]
pub fn range_divisor(size: usize, count: usize) -> f64 {
    let range = expected_range(size);
    let spread = range.deviation * range.deviation / number(count.max(1));
    (range.mean * range.mean + spread).sqrt()
}
