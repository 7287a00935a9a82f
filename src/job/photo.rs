use serde::{Deserialize, Serialize};

use crate::gauge::{Dot, Face, Hidden, Scale, Shown};

/// A photo to be measured.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PhotoWanted {
    /// The file, in base 64 (RFC 4648, section 4).
    pub photo: String,
    /// What in it has a known size.
    pub scale: Scale,
    /// Which face of the shoe lies up.
    pub face: Face,
    /// Whether it shows a drawn outline, no shoe.
    pub is_drawn: bool,
    /// The shoe's thickness in mm.
    pub thickness: f64,
    /// Its standard uncertainty in mm.
    pub unsure: f64,
    /// Corners of the sheet in pixels, where they are marked by hand.
    pub corners: Option<[Dot; 4]>,
    /// Whether the section is concave.
    pub is_concave: bool,
    /// Where something hides the edge of the face that lies up.
    pub hidden: Vec<Hidden>,
    /// Places of the edge that a person put right, in pixels.
    pub edge_points: Vec<Dot>,
}

/// What came of a photo.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub enum PhotoFound {
    /// It was measured.
    Measured(Box<Shown>),
    /// It can be opened, and not be measured.
    Refused(NotMeasured),
}

/// Why a photo cannot be measured.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct NotMeasured {
    /// A short word for it, as `Refused::word` has it.
    pub word: String,
    /// Why, and what to do.
    pub message: String,
    /// Where in the picture, in pixels.
    pub at: Option<Dot>,
    /// Columns and rows of the picture.
    pub size: (usize, usize),
}

impl PhotoFound {
    /// Columns and rows of the picture.
    pub fn size(&self) -> (usize, usize) {
        match self {
            Self::Measured(shown) => shown.size,
            Self::Refused(why) => why.size,
        }
    }

    /// Whether the picture took so much memory that the worker had better end: more than most
    /// of what else it does.
    pub(super) fn is_large(&self) -> bool {
        const LARGE: usize = 8_000_000;
        let (columns, rows) = self.size();
        columns.saturating_mul(rows) > LARGE
    }
}
