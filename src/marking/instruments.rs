//! What a reading was taken with, and how wrong it can be.

use thiserror::Error;

use crate::quantity::{Exact, Quantity, read_exact, read_quantity};
use crate::rubric::{Instrument, Rubric, Shape, ShapeFault, ShapeWord, Slot, Uncertainty};

use super::facts::{Facts, InstrumentFact, ReadingFact};

/// Id of the instrument that lengths taken from a photo name.
pub const PHOTO_GAUGE: &str = "photo-gauge";
/// Id of the one that angles taken from a photo name: an instrument measures one thing.
pub const PHOTO_GAUGE_ANGLES: &str = "photo-gauge-angles";

/// Whether readings by the instrument with this id come from a photo.
pub fn is_photo_gauge(id: &str) -> bool {
    [PHOTO_GAUGE, PHOTO_GAUGE_ANGLES].contains(&id)
}

/// The instrument with this id: the examiner's own where there is one, else the rubric's;
/// `None` where there is neither, or its figures cannot be read.
pub fn instrument(rubric: &Rubric, facts: &Facts, id: &str) -> Option<Instrument> {
    match facts.instruments.get(id) {
        Some(own) => own.read(id).ok(),
        None => rubric.instrument(id).cloned(),
    }
}

/// The instrument that one reading of `slot` was taken with, as far as one is named and
/// measures what the slot asks for; with the reading's own figures where it states some that
/// can be read.
pub fn taken_with(
    rubric: &Rubric,
    facts: &Facts,
    slot: &Slot<'_>,
    reading: &ReadingFact,
) -> Option<Instrument> {
    let id = reading.instrument.as_deref().or(slot.instrument)?;
    let found = instrument(rubric, facts, id)?;
    if found.dimension() != slot.dimension {
        return None;
    }
    let stated = reading.stated.as_ref();
    Some(match stated.map(|stated| stated.read(slot.dimension)) {
        Some(Ok(figures)) => figures.of(found),
        Some(Err(_)) | None => found,
    })
}

/// What is said of an instrument in figures.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Figure {
    /// How far one reading can be off at most.
    HalfWidth,
    /// How errors are spread between its ends.
    Shape,
    /// The level share of a trapezoid.
    LevelShare,
    /// The same as a standard uncertainty.
    StandardUncertainty,
    /// Standard deviation of repeats by one person.
    Repeatability,
    /// The part that all readings share.
    Shared,
    /// Where the figures come from.
    Source,
}

impl Figure {
    /// What it is called.
    pub fn word(self) -> &'static str {
        match self {
            Self::HalfWidth => "half-width",
            Self::Shape => "shape",
            Self::LevelShare => "level share",
            Self::StandardUncertainty => "standard uncertainty",
            Self::Repeatability => "repeatability",
            Self::Shared => "shared part",
            Self::Source => "source",
        }
    }
}

/// Why an instrument cannot be used as it is described: which figure, where it is one, and
/// what would do.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
#[error("{}{why}", .figure.map_or_else(String::new, |figure| format!("{}: ", figure.word())))]
pub struct InstrumentFault {
    /// The figure.
    pub figure: Option<Figure>,
    /// What is wrong with it and what would do.
    pub why: String,
}

impl InstrumentFact {
    /// The instrument that is described, with exact figures.
    ///
    /// *Errors:* [`InstrumentFault`].
    pub fn read(&self, id: &str) -> Result<Instrument, InstrumentFault> {
        let read = |figure: Figure, text: &Option<String>| {
            let refused = |why: String| InstrumentFault {
                figure: Some(figure),
                why,
            };
            let text = text
                .as_deref()
                .map(str::trim)
                .filter(|text| !text.is_empty());
            let Some(text) = text else {
                return Ok(None);
            };
            let quantity = read_quantity(text, self.measures, self.measures.usual_unit())
                .map_err(|fault| refused(fault.to_string()))?;
            if quantity.base.is_negative() {
                return Err(refused(format!(
                    "`{text}` is below zero; write how much it is"
                )));
            }
            if quantity.base.is_zero() {
                let why = "nothing is measured without any error; write how much it is, or leave \
                           it out";
                return Err(refused(why.to_owned()));
            }
            Ok(Some(quantity))
        };
        let half = read(Figure::HalfWidth, &self.half_width)?;
        let standard = read(Figure::StandardUncertainty, &self.standard_uncertainty)?;
        let neither = |why: &str| InstrumentFault {
            figure: None,
            why: why.to_owned(),
        };
        let uncertainty = match (half, standard) {
            (Some(_), Some(_)) => {
                return Err(neither(
                    "half-width and standard uncertainty say the same thing; keep one",
                ));
            }
            (Some(half), None) => Uncertainty::HalfWidth(half, self.read_shape()?),
            (None, Some(_)) if self.shape.is_some() || self.level_share.is_some() => {
                return Err(InstrumentFault {
                    figure: Some(Figure::Shape),
                    why: "only a half-width has a shape; leave it out".to_owned(),
                });
            }
            (None, Some(standard)) => Uncertainty::Standard(standard),
            (None, None) => {
                return Err(neither(
                    "write a half-width or a standard uncertainty, such as 0.5 mm",
                ));
            }
        };
        Ok(Instrument {
            id: id.to_owned(),
            name: self.name.clone(),
            uncertainty,
            repeatability: read(Figure::Repeatability, &self.repeatability)?,
            shared: read(Figure::Shared, &self.shared)?,
            source: self.source.clone(),
            in_place_of: Vec::new(),
        })
    }
}

impl InstrumentFact {
    fn read_shape(&self) -> Result<Shape, InstrumentFault> {
        let level = |why: String| InstrumentFault {
            figure: Some(Figure::LevelShare),
            why,
        };
        let text = self.level_share.as_deref().map(str::trim);
        let text = text.filter(|text| !text.is_empty());
        let share = text.map(read_exact).transpose();
        let share = share.map_err(|fault| level(fault.to_string()))?;
        let word = self.shape.unwrap_or(ShapeWord::Rectangular);
        Shape::of(word, share).map_err(|fault: ShapeFault| level(fault.to_string()))
    }
}

/// Repeats that differ by more than they should.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Disagreement {
    /// Largest less smallest of the repeats.
    pub range: Quantity,
    /// The most that is to be expected at 95 %.
    pub critical: Quantity,
}

/// Critical range factors for 2, 3 and 4 repeats: ISO 5725-6:1994, table 1 (from memory);
/// with more repeats that of 4 is used, which asks again a little sooner.
const CRITICAL: [(usize, i128, i128); 3] = [(2, 28, 10), (3, 33, 10), (4, 36, 10)];

/// Whether `repeats` differ by more than the critical range of the instrument's
/// `repeatability`; `None` where they do not, or fewer than two were taken.
pub fn disagreement(repeats: &[Exact], repeatability: Quantity) -> Option<Disagreement> {
    let (_, tenths, ten) = CRITICAL
        .iter()
        .rev()
        .find(|(count, ..)| repeats.len() >= *count)?;
    let range = repeats.iter().max()?.minus(*repeats.iter().min()?)?;
    let critical = repeatability.times(Exact::fraction(*tenths, *ten)?)?;
    (range > critical.base).then_some(Disagreement {
        range: Quantity::new(repeatability.dimension, range),
        critical,
    })
}
