//! The straight line through points by ordinary least squares.

use serde::Serialize;

use super::chance::two_sided_t;
use super::numbers::{all_finite, at_least, cross_products, mean, number, variance};
use super::{Interval, Lacking};

/// A line through points: `y = intercept + slope x`, errors in y alone, independent and of
/// one spread.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Line {
    /// What y rises by where x rises by one.
    pub slope: f64,
    /// What y is where x is nothing.
    pub intercept: f64,
    /// Standard deviation about the line, with `freedom` as divisor.
    pub residual: f64,
    /// Degrees of freedom: points less two.
    pub freedom: f64,
    /// Share of the variance of y that the line tells; nothing where y does not vary.
    pub r_squared: Option<f64>,
    middle: f64,
    spread: f64,
    points: f64,
}

impl Line {
    /// Fits the line to points whose x and y stand at the same places of two slices.
    ///
    /// # Errors
    ///
    /// Slices of unlike length, fewer than three points, a number that is not finite, one x
    /// for all.
    pub fn fit(xs: &[f64], ys: &[f64]) -> Result<Self, Lacking> {
        if xs.len() != ys.len() {
            return Err(Lacking::Gaps("points"));
        }
        at_least(xs.len(), 3, "points")?;
        all_finite(xs, "a place on the line")?;
        all_finite(ys, "a value over the line")?;
        let points = number(xs.len());
        let spread = variance(xs) * (points - 1.0);
        if spread <= 0.0 {
            return Err(Lacking::NoSpread("places on the line"));
        }
        let slope = cross_products(xs, ys) / spread;
        let middle = mean(xs);
        let height = mean(ys);
        let off = |(x, y): (&f64, &f64)| (y - height - slope * (x - middle)).powi(2);
        let squares: f64 = xs.iter().zip(ys).map(off).sum();
        let freedom = points - 2.0;
        let total = variance(ys) * (points - 1.0);
        let told = (1.0 - squares / total).clamp(0.0, 1.0);
        let line = Self {
            slope,
            intercept: height - slope * middle,
            residual: (squares / freedom).sqrt(),
            freedom,
            r_squared: (total > 0.0).then_some(told),
            middle,
            spread,
            points,
        };
        let found = [line.slope, line.intercept, line.residual, line.spread];
        all_finite(&found, "a line through so far apart numbers")?;
        Ok(line)
    }

    /// The line's height at `x`.
    #[must_use]
    pub fn at(&self, x: f64) -> f64 {
        self.intercept + self.slope * x
    }

    /// Standard error of the line's height at `x`: `s sqrt(1/n + (x - mean)^2 / Sxx)`
    /// (Draper and Smith 1998, 1.4 and 3.1).
    #[must_use]
    pub fn standard_error_at(&self, x: f64) -> f64 {
        let away = (x - self.middle).powi(2) / self.spread;
        self.residual * (1.0 / self.points + away).sqrt()
    }

    /// Standard error of one more value at `x` about the line: `s sqrt(1 + 1/n + (x - mean)^2 /
    /// Sxx)` (Draper and Smith 1998, 3.1).
    #[must_use]
    pub fn standard_error_of_one_at(&self, x: f64) -> f64 {
        self.residual.hypot(self.standard_error_at(x))
    }

    /// Interval for the line's height at `x`, by t.
    ///
    /// # Errors
    ///
    /// A level outside 0 to 1, or an `x` that is not finite.
    pub fn interval_at(&self, x: f64, level: f64) -> Result<Interval, Lacking> {
        all_finite(&[x], "a place on the line")?;
        self.around(self.at(x), self.standard_error_at(x), level)
    }

    /// Interval for the slope, by t, with the standard error `s / sqrt(Sxx)`.
    ///
    /// # Errors
    ///
    /// A level outside 0 to 1.
    pub fn slope_interval(&self, level: f64) -> Result<Interval, Lacking> {
        self.around(self.slope, self.residual / self.spread.sqrt(), level)
    }

    fn around(&self, centre: f64, standard: f64, level: f64) -> Result<Interval, Lacking> {
        let half = two_sided_t(self.freedom, level)? * standard;
        Ok(Interval {
            low: centre - half,
            high: centre + half,
            level,
        })
    }
}
