use kurbo::Point;
use thiserror::Error;

use super::drawn::Unclear;
use super::features;
use super::sheet::Unseen;

/// Why a photograph cannot be measured, and what to do.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum Refused {
    /// No sheet of paper was found.
    #[error(
        "no sheet of paper was found; lay the shoe on a white sheet, on a darker ground, and take all of it"
    )]
    NoSheet,
    /// The patch of paper is no sheet of that size.
    #[error(
        "the paper does not look like a flat sheet of that size; check the size, and take all of it from above"
    )]
    NotThatSheet,
    /// A side of the sheet is covered.
    #[error("a side of the sheet is not seen well near {}; clear it and take the photo again", place(*.0))]
    Side(Point),
    /// A corner of the sheet is covered or outside; the place, in pixels, is where it was looked
    /// for, and may be off where the camera was found by the other three.
    #[error("a corner of the sheet is not seen; clear all four and take the photo again")]
    Corner(Point),
    /// The camera leans too much.
    #[error("the camera leans by {0:.0} degrees; hold it level above the shoe")]
    Tilt(f64),
    /// The camera is too far away for its pixels.
    #[error("a millimetre is only {0:.1} pixels; go nearer or take a larger photo")]
    Far(f64),
    /// The sheet does not lie flat.
    #[error(
        "the sides of the sheet are not straight, by {0:.1} mm; press it flat, or use a fresh one"
    )]
    Bent(f64),
    /// No places on a ruler are marked.
    #[error("two places on the ruler are not marked yet; mark them, as far apart as it allows")]
    Unmarked,
    /// The marks on a ruler, so many pixels apart, are too near each other to be of use.
    #[error(
        "the two marks on the ruler are only {0:.0} pixels apart; mark two places that are further apart, or go nearer"
    )]
    Near(f64),
    /// No card was found.
    #[error(
        "no card was found beside the shoe; lay it flat on the light ground, clear of the shoe, or mark its corners"
    )]
    NoCard,
    /// The overall width would be vague by so many mm, about 95 %.
    #[error(
        "from the card alone the width is known to ± {0:.1} mm only; lay it close beside the shoe, both in the middle of the photo, and go nearer; or use a sheet"
    )]
    Vague(f64),
    /// The file of a scan does not tell its resolution.
    #[error(
        "the file does not tell how finely it was scanned; type the dots per inch that the scanner was set to"
    )]
    NoDensity,
    /// What is drawn is no plain closed line.
    #[error("{0}")]
    Drawn(#[from] Unclear),
    /// Nothing like a shoe lies on the sheet.
    #[error(
        "no shoe was found; lay it flat in the middle, with light ground all round and nothing touching it"
    )]
    NoShoe,
    /// The edge cannot be told over a share of the outline.
    #[error("over {:.0} % of its outline the edge of the shoe cannot be told; turn the light so that no hard shadow or glare lies on the edge", .0 * 100.0)]
    Edge(f64),
    /// The outlines are none of a shoe.
    #[error("{0}")]
    Shape(#[from] features::Refused),
    /// The uncertainty could not be worked out.
    #[error("how sure the measures are could not be worked out; take the photo again")]
    Unsure,
}

impl Refused {
    /// A short word for it.
    pub fn word(&self) -> &'static str {
        match self {
            Self::NoSheet => "no-sheet",
            Self::NotThatSheet => "not-that-sheet",
            Self::Side(_) => "side",
            Self::Corner(_) => "corner",
            Self::Tilt(_) => "tilt",
            Self::Far(_) => "far",
            Self::Bent(_) => "bent",
            Self::Unmarked => "unmarked",
            Self::Near(_) => "near",
            Self::NoCard => "no-card",
            Self::Vague(_) => "vague",
            Self::NoDensity => "no-density",
            Self::Drawn(unclear) => unclear.word(),
            Self::NoShoe => "no-shoe",
            Self::Edge(_) => "edge",
            Self::Shape(_) => "shape",
            Self::Unsure => "unsure",
        }
    }
}

impl Refused {
    /// Where in the picture, in pixels, something is to be mended.
    pub fn place(&self) -> Option<Point> {
        match self {
            Self::Side(at) => Some(*at),
            _ => None,
        }
    }
}

impl From<Unseen> for Refused {
    fn from(unseen: Unseen) -> Self {
        match unseen {
            Unseen::Paper => Self::NoSheet,
            Unseen::Card => Self::NoCard,
            Unseen::Sheet => Self::NotThatSheet,
            Unseen::Side(at) => Self::Side(at),
            Unseen::Corner(at) => Self::Corner(at),
            Unseen::Tilt(degrees) => Self::Tilt(degrees),
            Unseen::Far(pixels) => Self::Far(pixels),
            Unseen::Bent(mm) => Self::Bent(mm),
        }
    }
}

fn place(at: Point) -> String {
    format!("x {:.0}, y {:.0}", at.x, at.y)
}
