//! Quantiles of distributions, found from their distribution functions.
//!
//! The inverses of `statrs` 0.19 for t and F lose digits in the tails; its distribution
//! functions hold, so the inverses here halve an interval around them.

use statrs::distribution::{ContinuousCDF, FisherSnedecor, Normal, StudentsT};

use super::Lacking;

/// Halvings after which neighbouring floats are reached.
const HALVINGS: u32 = 200;

/// Where `below`, which rises, comes to `share`, somewhere from `low` to `high`.
fn halve(below: impl Fn(f64) -> f64, share: f64, low: f64, high: f64) -> f64 {
    let (mut low, mut high) = (low, high);
    for _ in 0..HALVINGS {
        let middle = 0.5 * (low + high);
        if middle <= low || middle >= high {
            break;
        }
        if below(middle) < share {
            low = middle;
        } else {
            high = middle;
        }
    }
    0.5 * (low + high)
}

/// An upper end at which `below` has reached `share`, by doubling.
fn reach(below: impl Fn(f64) -> f64, share: f64) -> Result<f64, Lacking> {
    let mut high = 1.0;
    while below(high) < share {
        high *= 2.0;
        if high > 1e300 {
            return Err(Lacking::NotFound("a quantile"));
        }
    }
    Ok(high)
}

/// Distribution function of the standard normal distribution.
pub(super) fn normal_below(z: f64) -> f64 {
    Normal::standard().cdf(z)
}

/// The `k` with which plus or minus `k` holds the share `level` of a t distribution with
/// `freedom` degrees of freedom, which may be infinite.
pub(super) fn two_sided_t(freedom: f64, level: f64) -> Result<f64, Lacking> {
    super::moments::level_fits(level)?;
    let share = 0.5 + 0.5 * level;
    if freedom.is_infinite() && freedom > 0.0 {
        let below = normal_below;
        return Ok(halve(below, share, 0.0, reach(below, share)?));
    }
    let t = StudentsT::new(0.0, 1.0, freedom);
    let t = t.map_err(|_| Lacking::NotANumber("the degrees of freedom"))?;
    let below = |x: f64| t.cdf(x);
    Ok(halve(below, share, 0.0, reach(below, share)?))
}

fn f_distribution(first: f64, second: f64) -> Result<FisherSnedecor, Lacking> {
    let f = FisherSnedecor::new(first, second);
    f.map_err(|_| Lacking::NotANumber("the degrees of freedom"))
}

/// The value that an F variable with these degrees of freedom is below with probability
/// `share`.
pub(super) fn f_quantile(first: f64, second: f64, share: f64) -> Result<f64, Lacking> {
    let f = f_distribution(first, second)?;
    let below = |x: f64| f.cdf(x);
    Ok(halve(below, share, 0.0, reach(below, share)?))
}

/// The probability that an F variable with these degrees of freedom is above `value`.
pub(super) fn f_above(first: f64, second: f64, value: f64) -> Result<f64, Lacking> {
    Ok(f_distribution(first, second)?.sf(value))
}
