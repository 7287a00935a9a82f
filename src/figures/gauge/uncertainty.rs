//! Standard uncertainties put together, with their degrees of freedom.

use serde::Serialize;

use super::super::chance::two_sided_t;
use super::super::numbers::{all_finite, at_least, cross_products, finite, number, variance};
use super::super::{Interval, Lacking};

/// What one source adds to a combined standard uncertainty.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Contribution {
    /// Its standard uncertainty times its sensitivity, in the unit of the result.
    pub standard: f64,
    /// Its degrees of freedom; infinite where it is known as it is (type B).
    pub freedom: f64,
}

/// A combined standard uncertainty.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Combined {
    /// The root of the sum of squares.
    pub standard: f64,
    /// Effective degrees of freedom, infinite where all contributions' are.
    pub freedom: f64,
}

/// A variance in a sum; it may be taken off.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub(super) struct Term {
    pub variance: f64,
    pub freedom: f64,
}

/// Puts uncorrelated contributions together: the root of the sum of squares, and the degrees
/// of freedom `u^4 / sum (u_i^4 / freedom_i)` (Welch and Satterthwaite; JCGM 100:2008,
/// G.4.1, equation G.2b).
///
/// # Errors
///
/// No contribution, one that is negative or not finite, degrees of freedom that are not
/// above 0, or contributions that are all 0.
pub fn combine(contributions: &[Contribution]) -> Result<Combined, Lacking> {
    let is_fine = |one: &Contribution| one.standard >= 0.0 && one.standard.is_finite();
    if !contributions.iter().all(is_fine) {
        return Err(Lacking::NotANumber("a standard uncertainty"));
    }
    let terms = contributions.iter().map(|one| Term {
        variance: one.standard * one.standard,
        freedom: one.freedom,
    });
    add(&terms.collect::<Vec<Term>>())
}

/// The sum of variances with its degrees of freedom.
pub(super) fn add(terms: &[Term]) -> Result<Combined, Lacking> {
    if terms
        .iter()
        .any(|term| term.freedom.is_nan() || term.freedom <= 0.0)
    {
        return Err(Lacking::NotANumber("the degrees of freedom"));
    }
    let variance: f64 = terms.iter().map(|term| term.variance).sum();
    if variance <= 0.0 {
        return Err(Lacking::NotANumber("an uncertainty of nothing"));
    }
    if !variance.is_finite() {
        return Err(Lacking::NotANumber("a standard uncertainty"));
    }
    // Shares first, so that no fourth power is lost or overflows.
    let shares = terms
        .iter()
        .map(|term| (term.variance / variance).powi(2) / term.freedom);
    Ok(Combined {
        standard: variance.sqrt(),
        freedom: 1.0 / shares.sum::<f64>(),
    })
}

impl Combined {
    /// The expanded uncertainty: the coverage factor of `level` times the standard one
    /// (JCGM 100:2008, 6.2.1), in its unit.
    ///
    /// # Errors
    ///
    /// Those of [`coverage`].
    pub fn expanded(&self, level: f64) -> Result<f64, Lacking> {
        Ok(coverage(self.freedom, level)? * self.standard)
    }

    /// The interval `value` plus or minus the expanded uncertainty.
    ///
    /// # Errors
    ///
    /// Those of [`coverage`], or a value that is not finite.
    pub fn around(&self, value: f64, level: f64) -> Result<Interval, Lacking> {
        let half = self.expanded(level)?;
        if !value.is_finite() {
            return Err(Lacking::NotANumber("a value"));
        }
        Ok(Interval {
            low: value - half,
            high: value + half,
            level,
        })
    }
}

/// The coverage factor `k` of a level: from the t distribution with the degrees of freedom
/// rounded down to a whole number (JCGM 100:2008, G.4.1 note 1 and G.6.4), from the normal
/// one where they are infinite.
///
/// # Errors
///
/// Fewer than one degree of freedom, or a level outside 0 to 1.
pub fn coverage(freedom: f64, level: f64) -> Result<f64, Lacking> {
    if freedom.is_nan() || freedom < 1.0 {
        return Err(Lacking::NotANumber(
            "a number of degrees of freedom below 1",
        ));
    }
    two_sided_t(freedom.floor(), level)
}

/// The contribution of the mean of readings that are alike but for chance: their standard
/// deviation over the root of their number (JCGM 100:2008, 4.2.3).
///
/// # Errors
///
/// Fewer than two readings, or one that is not finite.
pub fn of_mean(readings: &[f64]) -> Result<Contribution, Lacking> {
    at_least(readings.len(), 2, "readings")?;
    all_finite(readings, "a reading")?;
    let count = number(readings.len());
    Ok(Contribution {
        standard: (variance(readings) / count).sqrt(),
        freedom: count - 1.0,
    })
}

/// Covariances of the means of several quantities that were read together, `readings` of each
/// in the same order: `sum (x - mean)(y - mean) / (n (n - 1))` (JCGM 100:2008, 5.2.3,
/// equation 17).
///
/// # Errors
///
/// No quantities, fewer than two readings, unlike numbers of them, or one that is not finite.
pub fn of_means(readings: &[Vec<f64>]) -> Result<Vec<Vec<f64>>, Lacking> {
    let first = readings.first().map_or(0, Vec::len);
    at_least(first, 2, "readings of each quantity")?;
    if readings.iter().any(|own| own.len() != first) {
        return Err(Lacking::Gaps("readings taken together"));
    }
    for own in readings {
        all_finite(own, "a reading")?;
    }
    let count = number(first);
    let row = |one: &Vec<f64>| {
        let others = readings.iter();
        let cells = others.map(|other| cross_products(one, other) / (count * (count - 1.0)));
        cells.collect()
    };
    Ok(readings.iter().map(row).collect())
}

/// Covariances of several results whose inputs hang together: `C U C^T`, with a row of
/// sensitivities for each result and the covariances of the inputs (JCGM 102:2011, 6.2.1.3).
///
/// # Errors
///
/// Rows of unlike length, no inputs, or a number that is not finite.
pub fn propagated(
    sensitivities: &[Vec<f64>],
    covariances: &[Vec<f64>],
) -> Result<Vec<Vec<f64>>, Lacking> {
    let inputs = covariances.len();
    at_least(inputs, 1, "inputs")?;
    let rows = || sensitivities.iter().chain(covariances);
    if rows().any(|row| row.len() != inputs) {
        return Err(Lacking::Gaps("sensitivities or covariances"));
    }
    for row in rows() {
        all_finite(row, "a sensitivity or covariance")?;
    }
    let product = |one: &Vec<f64>, other: &Vec<f64>| {
        let through = covariances.iter().zip(one);
        let parts = through.map(|(row, by)| {
            let row = row.iter().zip(other);
            by * row.map(|(cell, by)| cell * by).sum::<f64>()
        });
        finite(parts.sum(), "a covariance of the results")
    };
    let row = |one| {
        sensitivities
            .iter()
            .map(|other| product(one, other))
            .collect()
    };
    sensitivities.iter().map(row).collect()
}
