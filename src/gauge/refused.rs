use kurbo::Point;
use thiserror::Error;

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
    /// Nothing like a shoe lies on the sheet.
    #[error("no shoe was found on the sheet; lay it flat in the middle, with some paper all round")]
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
