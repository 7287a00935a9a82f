//! Quantiles and tails of distributions, each checked.

use statrs::distribution::{ChiSquared, ContinuousCDF as _, FisherSnedecor, Normal, StudentsT};

use super::super::Lacking;

/// A quantile counts as found if so little is missing of its probability: the series behind
/// it stops early where degrees of freedom are many tens of thousands, or nearly none.
const OFF: f64 = 1e-7;

/// The quantile that leaves `above` to its right.
fn found(
    distribution: &impl statrs::distribution::ContinuousCDF<f64, f64>,
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

/// The quantile of Student's t that leaves `above` to its right.
pub(super) fn t_quantile(above: f64, df: f64) -> Result<f64, Lacking> {
    let what = "the quantile of the t distribution";
    let distribution = StudentsT::new(0.0, 1.0, df).map_err(|_| Lacking::NotFound(what))?;
    found(&distribution, above, what)
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

/// The probability of a chi-squared statistic as large or larger.
pub(super) fn chi_squared_above(statistic: f64, df: f64) -> Result<f64, Lacking> {
    ChiSquared::new(df)
        .map(|distribution| distribution.sf(statistic))
        .map_err(|_| Lacking::NotFound("the chi-squared distribution"))
}

/// The probability of a standard normal value as far from 0 or farther.
pub(super) fn normal_beyond(z: f64) -> f64 {
    (2.0 * Normal::standard().sf(z.abs())).min(1.0)
}
