//! Readings of reference pieces: what an instrument shows too much or too little, and
//! whether that depends on the size.

use serde::Serialize;

use super::super::numbers::{all_finite, at_least, mean};
use super::super::{Interval, Lacking, Line};
use super::uncertainty::{Combined, of_mean};

/// A piece whose size is known, and readings of it.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Reference {
    /// The known size.
    pub value: f64,
    /// Readings of it, in the same unit.
    pub readings: Vec<f64>,
}

/// How far readings of a reference piece are off.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Bias {
    /// Mean reading less reference value.
    pub bias: f64,
    /// Interval for it by t, readings independent and the reference value exact.
    pub interval: Interval,
    /// Standard error of the bias and its degrees of freedom.
    pub standard: Combined,
}

/// The line of the bias over the reference values.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Linearity {
    /// Bias of single readings on reference value.
    pub line: Line,
    /// Interval for the slope; where 0 is outside, the bias depends on the size.
    pub slope: Interval,
    /// Lowest and highest reference value: the line says nothing beyond them.
    pub range: (f64, f64),
    /// Interval for the bias at the middle of the reference values; where 0 is outside,
    /// readings are off there on the whole.
    pub at_middle: Interval,
}

impl Linearity {
    /// By how much the bias changes from the lowest reference value to the highest, in the
    /// unit of the readings.
    pub fn over_range(&self) -> f64 {
        let (low, high) = self.range;
        self.line.slope * (high - low)
    }
}

/// The bias of readings of one reference piece (AIAG, 4th edition, chapter III-B).
///
/// # Errors
///
/// Fewer than two readings, a number that is not finite, a level outside 0 to 1.
pub fn bias(reference: &Reference, level: f64) -> Result<Bias, Lacking> {
    all_finite(&[reference.value], "a reference value")?;
    let own = of_mean(&reference.readings)?;
    let standard = Combined {
        standard: own.standard,
        freedom: own.freedom,
    };
    let bias = mean(&reference.readings) - reference.value;
    Ok(Bias {
        bias,
        interval: standard.around(bias, level)?,
        standard,
    })
}

/// The linearity of an instrument: the least-squares line of each reading's bias on the
/// reference value, with intervals by t at `level` (AIAG, 4th edition, chapter III-B).
///
/// # Errors
///
/// Fewer than two pieces of unlike size, a piece without a reading, fewer than three
/// readings in all, a number that is not finite, a level outside 0 to 1.
pub fn linearity(references: &[Reference], level: f64) -> Result<Linearity, Lacking> {
    at_least(references.len(), 2, "reference pieces")?;
    if references.iter().any(|piece| piece.readings.is_empty()) {
        return Err(Lacking::Gaps("readings of each reference piece"));
    }
    let pairs = references.iter().flat_map(|piece| {
        let readings = piece.readings.iter();
        readings.map(|reading| (piece.value, reading - piece.value))
    });
    let (sizes, biases): (Vec<f64>, Vec<f64>) = pairs.unzip();
    let line = Line::fit(&sizes, &biases)?;
    let least = sizes.iter().fold(f64::INFINITY, |a, b| a.min(*b));
    let most = sizes.iter().fold(f64::NEG_INFINITY, |a, b| a.max(*b));
    Ok(Linearity {
        line,
        slope: line.slope_interval(level)?,
        range: (least, most),
        at_middle: line.interval_at(mean(&sizes), level)?,
    })
}
