use serde::Serialize;

use crate::figures::Lacking;
use crate::figures::numbers::{count, enough, finite, mean};

/// A straight line by least squares.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Line {
    /// Its height at 0.
    pub intercept: f64,
    /// What it rises for one to the right.
    pub slope: f64,
    /// Standard error of the intercept.
    pub intercept_error: f64,
    /// Standard error of the slope.
    pub slope_error: f64,
    /// Standard deviation of what the line leaves, with `n - 2` degrees of freedom.
    pub residual: f64,
    /// The share of the spread that it explains.
    pub r_squared: f64,
    /// How many points it rests on.
    pub points: usize,
    /// Mean of the places.
    pub(super) middle: f64,
    /// Sum of the squared distances of the places from their mean.
    pub(super) spread: f64,
}

/// The straight line through points `(x, y)` by least squares, from centred sums.
///
/// *Source:* any textbook; tests hold it to the certified values of NIST StRD, Norris.
///
/// *Errors:* fewer than three points, all at one place, or a number that is not finite.
pub fn line(points: &[(f64, f64)]) -> Result<Line, Lacking> {
    enough("points", points.len(), 3)?;
    let (xs, ys): (Vec<f64>, Vec<f64>) = points.iter().copied().unzip();
    finite("places", &xs)?;
    finite("values", &ys)?;
    let (middle, level) = (mean(&xs), mean(&ys));
    let spread: f64 = xs.iter().map(|x| (x - middle).powi(2)).sum();
    if spread <= 0.0 {
        return Err(Lacking::NoSpread("places"));
    }
    let both = points.iter().map(|(x, y)| (x - middle) * (y - level));
    let slope = both.sum::<f64>() / spread;
    let left = points
        .iter()
        .map(|(x, y)| (y - level) - slope * (x - middle));
    let left: f64 = left.map(|left| left * left).sum();
    let whole: f64 = ys.iter().map(|y| (y - level).powi(2)).sum();
    let many = count(points.len());
    let residual = (left / (many - 2.0)).sqrt();
    Ok(Line {
        intercept: level - slope * middle,
        slope,
        intercept_error: residual * (1.0 / many + middle * middle / spread).sqrt(),
        slope_error: residual / spread.sqrt(),
        residual,
        r_squared: if whole > 0.0 { 1.0 - left / whole } else { 1.0 },
        points: points.len(),
        middle,
        spread,
    })
}

impl Line {
    /// Its height at `x`.
    pub fn at(&self, x: f64) -> f64 {
        self.intercept + self.slope * x
    }

    /// Standard error of one more value at `x`, around the line.
    pub fn error_of_one_at(&self, x: f64) -> f64 {
        let away = x - self.middle;
        let many = count(self.points);
        self.residual * (1.0 + 1.0 / many + away * away / self.spread).sqrt()
    }
}
