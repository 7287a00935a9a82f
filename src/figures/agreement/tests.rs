//! Tests of no agreement beyond chance: a statistic, what it is compared with, and how rare.

use super::super::Lacking;
use super::super::chance::{chi_squared_above, f_above, normal_beyond};

/// An F test.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FTest {
    /// Mean square of the targets by that of the error.
    pub statistic: f64,
    /// Degrees of freedom of the targets.
    pub df: f64,
    /// Degrees of freedom of the error.
    pub df_error: f64,
    /// Probability of a statistic as large or larger where the true figure is 0.
    pub p: f64,
}

impl FTest {
    pub(super) fn of(statistic: f64, df: f64, df_error: f64) -> Result<Self, Lacking> {
        let p = f_above(statistic, df, df_error)?;
        Ok(Self {
            statistic,
            df,
            df_error,
            p,
        })
    }
}

/// A chi-squared test.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ChiSquaredTest {
    /// The statistic.
    pub statistic: f64,
    /// Degrees of freedom.
    pub df: f64,
    /// Probability of a statistic as large or larger where the true figure is 0.
    pub p: f64,
}

impl ChiSquaredTest {
    pub(super) fn of(statistic: f64, df: f64) -> Result<Self, Lacking> {
        let p = chi_squared_above(statistic, df)?;
        Ok(Self { statistic, df, p })
    }
}

/// A test by the normal distribution, on both sides.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ZTest {
    /// The figure by its standard error where the true figure is 0.
    pub statistic: f64,
    /// Probability of a statistic as far from 0 or farther where the true figure is 0.
    pub p: f64,
}

impl ZTest {
    /// Lacking where the standard error is 0, or as good as 0.
    pub(super) fn of(value: f64, error: f64) -> Result<Self, Lacking> {
        // Standard errors of a kappa are of the size of 1 / sqrt(n); this is rounding.
        const ROUNDING: f64 = 1e-12;
        if error <= ROUNDING {
            return Err(Lacking::NoSpread("the scores of one rater"));
        }
        let statistic = value / error;
        let p = normal_beyond(statistic);
        Ok(Self { statistic, p })
    }
}
