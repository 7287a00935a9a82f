use serde::Serialize;

use super::Lacking;
use super::numbers::{all_finite, at_least, quantile};

/// Five values that say how others are spread.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Quartiles {
    /// The least.
    pub least: f64,
    /// A quarter lies below it.
    pub lower: f64,
    /// The middle one.
    pub middle: f64,
    /// A quarter lies above it.
    pub upper: f64,
    /// The greatest.
    pub most: f64,
}

/// Least, quartiles and greatest of `values`, linear between the two that are nearest.
///
/// *Source:* Hyndman and Fan, Am. Stat. 50 (1996) 361, definition 7.
///
/// *Errors:* no value, or one that is not finite.
pub fn quartiles(values: &[f64]) -> Result<Quartiles, Lacking> {
    at_least(values.len(), 1, "values")?;
    all_finite(values, "values")?;
    let mut sorted = values.to_vec();
    sorted.sort_by(f64::total_cmp);
    let at = |share: f64| quantile(&sorted, share);
    Ok(Quartiles {
        least: at(0.0),
        lower: at(0.25),
        middle: at(0.5),
        upper: at(0.75),
        most: at(1.0),
    })
}
