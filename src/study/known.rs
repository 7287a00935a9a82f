//! Parts whose size is known from elsewhere.

use super::worked::{LEVEL, in_unit};
use crate::figures::gauge::{
    Bias, Combined, Contribution, Linearity, Reference, bias, combine, linearity,
};
use crate::figures::{Interval, Lacking, mean};
use crate::quantity::{Dimension, Unit, read_quantity};
use crate::records::{StudyFacts, StudyPart};

/// How far readings of a part of known size are off.
#[derive(Debug, Clone, PartialEq)]
pub struct PartBias {
    /// Which part, from 0.
    pub part: usize,
    /// Its known size with its standard uncertainty, 0 where none is stated; or why either
    /// cannot be read.
    pub known: Result<(f64, f64), String>,
    /// How far off, all people together; nothing where there is no size.
    pub found: Option<Result<Found, Lacking>>,
    /// Mean deviation from the known size of each person, in their order; nothing for those
    /// without a reading.
    pub by_person: Vec<Option<f64>>,
}

/// A bias, with the uncertainty of readings and of the known size put together.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Found {
    /// Mean of all readings less the known size, with the uncertainty of the mean alone.
    pub of_readings: Bias,
    /// The root of the sum of squares of both uncertainties (JCGM 100:2008, 5.1.2).
    pub combined: Combined,
    /// Interval for the bias by them.
    pub interval: Interval,
    /// Standard uncertainty of the known size, 0 where none is stated.
    pub of_size: f64,
}

impl Found {
    /// Which share of the combined variance is that of the known size; nothing where there is
    /// no variance.
    #[must_use]
    pub fn share_of_size(&self) -> Option<f64> {
        let share = (self.of_size / self.combined.standard).powi(2);
        share.is_finite().then_some(share)
    }
}

pub(super) fn biases(facts: &StudyFacts, cells: &[Vec<Vec<f64>>], unit: Unit) -> Vec<PartBias> {
    let parts = facts.parts.iter().zip(cells).enumerate();
    let known = parts.filter_map(|(at, (part, cells))| {
        part.reference.as_ref()?;
        let known = size(part, unit);
        let value = known.as_ref().ok().map(|(value, _)| *value);
        let by_person = cells.iter().map(|cell| {
            let value = value.filter(|_| !cell.is_empty())?;
            Some(mean(cell) - value)
        });
        Some(PartBias {
            part: at,
            found: known.as_ref().ok().map(|known| found(*known, cells)),
            by_person: by_person.collect(),
            known,
        })
    });
    known.collect()
}

/// The line of the bias over the size; known sizes count as exact in it.
pub(super) fn linear(
    facts: &StudyFacts,
    cells: &[Vec<Vec<f64>>],
    unit: Unit,
) -> Result<Linearity, Lacking> {
    const LEAST: usize = 3;
    let parts = facts.parts.iter().zip(cells);
    let known = parts.filter_map(|(part, cells)| {
        let (value, _) = size(part, unit).ok()?;
        let readings: Vec<f64> = cells.iter().flatten().copied().collect();
        (!readings.is_empty()).then_some(Reference { value, readings })
    });
    let known: Vec<Reference> = known.collect();
    if known.len() < LEAST {
        return Err(Lacking::TooFew {
            what: "parts of known size",
            has: known.len(),
            needs: LEAST,
        });
    }
    linearity(&known, LEVEL)
}

/// The known size of a part and its standard uncertainty.
fn size(part: &StudyPart, unit: Unit) -> Result<(f64, f64), String> {
    let read = |text: &str| {
        let quantity = read_quantity(text, Dimension::Length, unit);
        let quantity = quantity.map_err(|why| why.to_string())?;
        in_unit(quantity.base, unit).ok_or_else(|| {
            format!(
                "`{text}` is too large to work with; write the size of the part, such as 10.5 mm"
            )
        })
    };
    let value = read(part.reference.as_deref().unwrap_or_default())?;
    let standard = part.uncertainty.as_deref().map_or(Ok(0.0), read)?;
    if standard < 0.0 {
        return Err(
            "its standard uncertainty is below zero; write how large it is, such as 0.01 mm"
                .to_owned(),
        );
    }
    Ok((value, standard))
}

fn found((value, standard): (f64, f64), cells: &[Vec<f64>]) -> Result<Found, Lacking> {
    let readings = cells.iter().flatten().copied().collect();
    let of_readings = bias(&Reference { value, readings }, LEVEL)?;
    let own = of_readings.standard;
    let combined = if standard > 0.0 {
        let own = Contribution {
            standard: own.standard,
            freedom: own.freedom,
        };
        let stated = Contribution {
            standard,
            freedom: f64::INFINITY,
        };
        combine(&[own, stated])?
    } else {
        own
    };
    Ok(Found {
        of_readings,
        combined,
        interval: combined.around(of_readings.bias, LEVEL)?,
        of_size: standard,
    })
}
