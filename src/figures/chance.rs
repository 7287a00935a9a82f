//! Quantiles and tails of distributions, each checked.

use statrs::distribution::{ChiSquared, ContinuousCDF, FisherSnedecor, Normal, StudentsT};

use super::Lacking;
use super::numbers::confidence;

/// A quantile counts as found if so little is missing of its probability: the series behind
/// it stops early where degrees of freedom are many tens of thousands, or nearly none.
const OFF: f64 = 1e-7;
/// From so many degrees of freedom quantiles of t are worked out from the normal ones: the
/// inverse of `statrs` 0.19 loses digits there, and is off by 7 % at ten million.
const MANY: f64 = 1e4;

/// The quantile that leaves `above` to its right.
fn found(
    distribution: &impl ContinuousCDF<f64, f64>,
    above: f64,
    what: &'static str,
) -> Result<f64, Lacking> {
    let quantile = distribution.inverse_cdf(1.0 - above);
    // Not a number is not near either.
    let is_near = (distribution.sf(quantile) - above).abs() <= OFF;
    if quantile.is_finite() && is_near {
        Ok(quantile)
    } else {
        Err(Lacking::NotFound(what))
    }
}

/// The F quantile that leaves `above` to its right.
pub(super) fn f_quantile(above: f64, df: f64, df_error: f64) -> Result<f64, Lacking> {
    let what = "the quantile of the F distribution";
    let distribution = FisherSnedecor::new(df, df_error).map_err(|_| Lacking::NotFound(what))?;
    found(&distribution, above, what)
}

/// The chi-squared quantile that leaves `above` to its right.
pub(super) fn chi_squared_quantile(above: f64, df: f64) -> Result<f64, Lacking> {
    let what = "the quantile of the chi-squared distribution";
    let distribution = ChiSquared::new(df).map_err(|_| Lacking::NotFound(what))?;
    found(&distribution, above, what)
}

/// The quantile of Student's t that leaves `above` to its right; `df` may be infinite.
///
/// *Formula for many degrees of freedom:* the expansion about the normal quantile (Fisher
/// 1925; Abramowitz and Stegun 1964, 26.7.5), whose next term is below 2e-10 of it for
/// levels up to 0.999 999.
pub(super) fn t_quantile(above: f64, df: f64) -> Result<f64, Lacking> {
    let what = "the quantile of the t distribution";
    let distribution = StudentsT::new(0.0, 1.0, df).map_err(|_| Lacking::NotFound(what))?;
    if df <= MANY {
        return found(&distribution, above, what);
    }
    let z = normal_quantile(above)?;
    let first = (z.powi(3) + z) / 4.0;
    let second = (5.0 * z.powi(5) + 16.0 * z.powi(3) + 3.0 * z) / 96.0;
    Ok(z + (first + second / df) / df)
}

/// The `k` with which plus or minus `k` holds the share `level` of a t distribution.
pub(super) fn two_sided_t(df: f64, level: f64) -> Result<f64, Lacking> {
    confidence(level)?;
    t_quantile((1.0 - level) / 2.0, df)
}

/// The standard normal quantile that leaves `above` to its right.
pub(super) fn normal_quantile(above: f64) -> Result<f64, Lacking> {
    found(
        &Normal::standard(),
        above,
        "the quantile of the normal distribution",
    )
}

/// The probability of an F statistic as large or larger.
pub(super) fn f_above(statistic: f64, df: f64, df_error: f64) -> Result<f64, Lacking> {
    FisherSnedecor::new(df, df_error)
        .map(|distribution| distribution.sf(statistic))
        .map_err(|_| Lacking::NotFound("the F distribution"))
}

/// The probability of a value of Student's t as large or larger.
pub(super) fn t_above(statistic: f64, df: f64) -> Result<f64, Lacking> {
    StudentsT::new(0.0, 1.0, df)
        .map(|distribution| distribution.sf(statistic))
        .map_err(|_| Lacking::NotFound("the t distribution"))
}

/// The probability of a chi-squared statistic as large or larger.
pub(super) fn chi_squared_above(statistic: f64, df: f64) -> Result<f64, Lacking> {
    ChiSquared::new(df)
        .map(|distribution| distribution.sf(statistic))
        .map_err(|_| Lacking::NotFound("the chi-squared distribution"))
}

/// Distribution function of the standard normal distribution.
pub(super) fn normal_below(z: f64) -> f64 {
    Normal::standard().cdf(z)
}

/// The probability of a standard normal value as far from 0 or farther.
pub(super) fn normal_beyond(z: f64) -> f64 {
    (2.0 * Normal::standard().sf(z.abs())).min(1.0)
}
