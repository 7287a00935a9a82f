//! The outline of a shoe as it was measured, kept with what was read off it.

use num_traits::AsPrimitive;
use serde::{Deserialize, Deserializer, Serialize, de};
use thiserror::Error;

/// A place in the shoe's own frame, in hundredths of a millimetre.
pub type OutlinePlace = (i32, i32);

/// What was measured of one shoe in a photo, to be laid over others later. It gives no marks.
///
/// *Frame:* ground face seen, toe up. The origin is where the mirror axis crosses the outer edge
/// at the toe, x runs to the right, y along the axis to the heels. *Units:* hundredths of a
/// millimetre.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct OutlineFact {
    /// Which shoe of the piece, where it has several.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub shoe: Option<String>,
    /// SHA-256 of the photo that it was measured in, as it stays with the marking, in hexadecimal.
    pub photo: String,
    /// The outer edge, closed; of an open shoe all round the steel.
    pub outer: Vec<OutlinePlace>,
    /// What a bar closes in.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub inner: Vec<Vec<OutlinePlace>>,
    /// Centres of the nail holes.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub holes: Vec<OutlinePlace>,
    /// Standard uncertainty of its overall width: how sure its size is.
    pub unsure: u32,
}

/// Why an outline is not kept.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum OutlineFault {
    /// A coordinate that is none, or lies further off than any shoe reaches.
    #[error("a place of the outline lies at {0}; write millimetres from the toe, up to 500 mm off")]
    Place(String),
    /// Too few places for an edge.
    #[error("an edge of the outline has {0} places; {least} are the least", least = OutlineFact::LEAST_PLACES)]
    TooFew(usize),
    /// More places than are kept.
    #[error("an outline is kept with up to {most} places to an edge, and this has {0}; thin it out", most = OutlineFact::MOST_PLACES)]
    TooMany(usize),
    /// More edges or holes than a shoe has.
    #[error("a shoe has no {0} {1}; leave out what is none")]
    TooManyParts(usize, &'static str),
    /// A digest that is none.
    #[error("`{0}` is not the SHA-256 of a photo; write its 64 letters and digits")]
    Photo(String),
    /// An uncertainty that no measured outline has.
    #[error("the outline is said to be unsure by more than 500 mm; measure the shoe again")]
    Unsure,
    /// Two outlines of one shoe.
    #[error("there are two outlines of one shoe; keep the later one")]
    Twice,
}

impl OutlineFact {
    /// An edge has so many places at least.
    pub const LEAST_PLACES: usize = 8;
    /// An edge is kept with no more places than this: a few kB.
    pub const MOST_PLACES: usize = 400;
    /// No shoe has more openings.
    pub const MOST_INNER: usize = 4;
    /// No shoe has more nail holes.
    pub const MOST_HOLES: usize = 40;
    /// No place lies further from the toe each way, in hundredths of a millimetre: 500 mm.
    pub const FURTHEST: i32 = 50_000;

    /// A place in mm as it is kept.
    ///
    /// # Errors
    ///
    /// [`OutlineFault::Place`] for a coordinate that is not finite or lies too far off.
    pub fn place((x, y): (f64, f64)) -> Result<OutlinePlace, OutlineFault> {
        let near = |mm: f64| {
            let hundredths = (mm * 100.0).round();
            let is_near = hundredths.abs() <= f64::from(Self::FURTHEST);
            is_near.then(|| hundredths.as_())
        };
        let both = near(x).zip(near(y));
        both.ok_or_else(|| OutlineFault::Place(format!("{x}, {y}")))
    }

    /// A kept place in mm.
    pub fn mm((x, y): OutlinePlace) -> (f64, f64) {
        (f64::from(x) / 100.0, f64::from(y) / 100.0)
    }

    /// Whether it may be kept.
    ///
    /// # Errors
    ///
    /// [`OutlineFault`]: what is wrong with it.
    pub fn check(&self) -> Result<(), OutlineFault> {
        let is_hex = |letter: u8| letter.is_ascii_digit() || (b'a'..=b'f').contains(&letter);
        let is_digest = self.photo.len() == 64 && self.photo.bytes().all(is_hex);
        if !is_digest {
            return Err(OutlineFault::Photo(self.photo.chars().take(80).collect()));
        }
        for (count, most, what) in [
            (self.inner.len(), Self::MOST_INNER, "openings"),
            (self.holes.len(), Self::MOST_HOLES, "nail holes"),
        ] {
            if count > most {
                return Err(OutlineFault::TooManyParts(count, what));
            }
        }
        if u32::try_from(Self::FURTHEST).is_ok_and(|most| self.unsure > most) {
            return Err(OutlineFault::Unsure);
        }
        for edge in std::iter::once(&self.outer).chain(&self.inner) {
            if edge.len() < Self::LEAST_PLACES {
                return Err(OutlineFault::TooFew(edge.len()));
            }
            if edge.len() > Self::MOST_PLACES {
                return Err(OutlineFault::TooMany(edge.len()));
            }
            near(edge)?;
        }
        near(&self.holes)
    }
}

fn near(places: &[OutlinePlace]) -> Result<(), OutlineFault> {
    let is_far = |value: i32| !(-OutlineFact::FURTHEST..=OutlineFact::FURTHEST).contains(&value);
    match places.iter().find(|(x, y)| is_far(*x) || is_far(*y)) {
        Some(place) => {
            let (x, y) = OutlineFact::mm(*place);
            Err(OutlineFault::Place(format!("{x} mm, {y} mm")))
        }
        None => Ok(()),
    }
}

/// Outlines as a record has them, each of which may be kept.
pub(super) fn outlines<'de, D: Deserializer<'de>>(from: D) -> Result<Vec<OutlineFact>, D::Error> {
    let outlines = Vec::<OutlineFact>::deserialize(from)?;
    for (place, outline) in outlines.iter().enumerate() {
        outline.check().map_err(de::Error::custom)?;
        let mut others = outlines.iter().skip(place + 1);
        if others.any(|other| other.shoe == outline.shoe) {
            return Err(de::Error::custom(OutlineFault::Twice));
        }
    }
    Ok(outlines)
}
