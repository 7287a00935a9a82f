//! Sums and ranks that several figures need.

use num_traits::ToPrimitive;
use statrs::distribution::{ContinuousCDF, Normal};

use super::Lacking;

/// Checks that every number is finite.
///
/// *Errors:* [`Lacking::NotANumber`].
pub(super) fn finite(what: &'static str, values: &[f64]) -> Result<(), Lacking> {
    if values.iter().all(|value| value.is_finite()) {
        Ok(())
    } else {
        Err(Lacking::NotANumber(what))
    }
}

/// Checks that there are enough.
///
/// *Errors:* [`Lacking::TooFew`].
pub(super) fn enough(what: &'static str, has: usize, needs: usize) -> Result<(), Lacking> {
    if has >= needs {
        Ok(())
    } else {
        Err(Lacking::TooFew { what, has, needs })
    }
}

/// A count as a number.
pub(super) fn count(of: usize) -> f64 {
    of.to_f64().unwrap_or(f64::MAX)
}

/// The mean; 0 of nothing. In two passes, so that large numbers lose no digits.
pub(super) fn mean(values: &[f64]) -> f64 {
    let many = count(values.len().max(1));
    let rough = values.iter().sum::<f64>() / many;
    rough + values.iter().map(|value| value - rough).sum::<f64>() / many
}

/// The middle of numbers in order; the mean of both where two are in the middle.
pub(super) fn median(mut values: Vec<f64>) -> Option<f64> {
    values.sort_by(f64::total_cmp);
    let half = values.len() / 2;
    let upper = *values.get(half)?;
    if values.len() % 2 == 1 {
        return Some(upper);
    }
    values
        .get(half.checked_sub(1)?)
        .map(|lower| f64::midpoint(*lower, upper))
}

/// How many there are of each number that is there more than once.
pub(super) fn ties(values: &[f64]) -> Vec<usize> {
    let mut sorted = values.to_vec();
    sorted.sort_by(f64::total_cmp);
    let groups = sorted.chunk_by(|one, next| one == next);
    groups.map(<[f64]>::len).filter(|many| *many > 1).collect()
}

/// The point of the standard normal distribution below which `share` of it lies.
pub(super) fn normal_point(share: f64) -> f64 {
    Normal::standard().inverse_cdf(share)
}
