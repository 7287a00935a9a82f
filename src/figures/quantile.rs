//! Quantiles and tail probabilities of the normal, t and F distributions.

use statrs::distribution::{ContinuousCDF, FisherSnedecor, Normal, StudentsT};

use super::Lacking;
use super::moments::{finite, level_fits};

/// From so many degrees of freedom quantiles of t are worked out from the normal ones: the
/// inverse of `statrs` 0.19 loses digits there, and is off by 7 % at ten million.
const MANY: f64 = 1e4;

/// Distribution function of the standard normal distribution.
pub(super) fn normal_below(z: f64) -> f64 {
    Normal::standard().cdf(z)
}

/// The `k` with which plus or minus `k` holds the share `level` of a t distribution with
/// `freedom` degrees of freedom, which may be infinite.
///
/// *Formula for many:* the expansion about the normal quantile (Fisher 1925; Abramowitz and
/// Stegun 1964, 26.7.5), whose next term is below 2e-10 of it for levels up to 0.999 999.
pub(super) fn two_sided_t(freedom: f64, level: f64) -> Result<f64, Lacking> {
    level_fits(level)?;
    let share = 0.5 + 0.5 * level;
    let t = StudentsT::new(0.0, 1.0, freedom);
    let t = t.map_err(|_| Lacking::NotANumber("the degrees of freedom"))?;
    let quantile = if freedom > MANY {
        let z = Normal::standard().inverse_cdf(share);
        let first = (z.powi(3) + z) / 4.0;
        let second = (5.0 * z.powi(5) + 16.0 * z.powi(3) + 3.0 * z) / 96.0;
        z + (first + second / freedom) / freedom
    } else {
        t.inverse_cdf(share)
    };
    finite(quantile, "a quantile of so high a level")
}

fn f_distribution(first: f64, second: f64) -> Result<FisherSnedecor, Lacking> {
    let f = FisherSnedecor::new(first, second);
    f.map_err(|_| Lacking::NotANumber("the degrees of freedom"))
}

/// The value that an F variable with these degrees of freedom is below with probability
/// `share`, which lies between 0 and 1.
pub(super) fn f_quantile(first: f64, second: f64, share: f64) -> Result<f64, Lacking> {
    let quantile = f_distribution(first, second)?.inverse_cdf(share.clamp(0.0, 1.0));
    finite(quantile, "a quantile of so high a level")
}

/// The probability that an F variable with these degrees of freedom is above `value`.
pub(super) fn f_above(first: f64, second: f64, value: f64) -> Result<f64, Lacking> {
    Ok(f_distribution(first, second)?.sf(value))
}
