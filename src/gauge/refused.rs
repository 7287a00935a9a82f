use kurbo::Point;
use thiserror::Error;

use super::drawn::Unclear;
use super::features;
use super::sheet::{Sheet, Unseen};

/// Why a photograph cannot be measured, and what to do.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum Refused {
    /// No sheet of paper was found.
    #[error(
        "no sheet of paper was found; lay the shoe on a white sheet, on a darker ground, and take all of it"
    )]
    NoSheet,
    /// What lies there is no sheet or card of that size.
    #[error(
        "what lies there does not look like a flat {} of that size; check the size, and take all of it from above", .0.about().name
    )]
    NotThatSheet(Sheet),
    /// A side of the sheet or card is covered.
    #[error("the side of the {} at the {} of the photo is not seen well; clear it and take the photo again", .0.of.about().name, .0.whereabouts())]
    Side(Spot),
    /// A corner of it is covered or outside; the place is where it was looked for, and may
    /// be off where the camera was found by the other three.
    #[error("the corner of the {} at the {} of the photo is not seen; clear it, take all four into the photo and take it again", .0.of.about().name, .0.whereabouts())]
    Corner(Spot),
    /// The camera leans too much.
    #[error("the camera leans by {0:.0} degrees; hold it level above the shoe")]
    Tilt(f64),
    /// The camera is too far away for its pixels.
    #[error("a millimetre is only {0:.1} pixels; go nearer or take a larger photo")]
    Far(f64),
    /// The sheet or card does not lie flat, by so many mm.
    #[error("the sides of the {} are not straight, by {:.1} mm; press it flat, or use a fresh one", .0.about().name, .1)]
    Bent(Sheet, f64),
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
    /// A place that a person marked on the edge, in pixels, lies far from all that may be one.
    #[error(
        "a point on the edge lies more than 40 mm from the edge of anything like a shoe; put it where the edge of the shoe is, or remove it"
    )]
    Stray(Point),
    /// The shoe reaches over the edge of the sheet.
    #[error(
        "the shoe reaches over the edge of the sheet; lay all of it on the sheet, or, where a clip at the toe hangs over the edge of a board, let the toe reach over it by 12 mm at most"
    )]
    Overhang,
    /// The same, and too little is seen of that side of the sheet or another one.
    #[error("the side of the {} at the {} of the photo is not seen well; clear it, and where the toe hangs over it, let that be a long side, and the toe reach over it by 12 mm at most", .0.of.about().name, .0.whereabouts())]
    Hung(Spot),
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
            Self::NotThatSheet(_) => "not-that-sheet",
            Self::Side(_) => "side",
            Self::Corner(_) => "corner",
            Self::Tilt(_) => "tilt",
            Self::Far(_) => "far",
            Self::Bent(..) => "bent",
            Self::Unmarked => "unmarked",
            Self::Near(_) => "near",
            Self::NoCard => "no-card",
            Self::Vague(_) => "vague",
            Self::NoDensity => "no-density",
            Self::Drawn(unclear) => unclear.word(),
            Self::NoShoe => "no-shoe",
            Self::Stray(_) => "stray-point",
            Self::Overhang => "overhang",
            Self::Hung(_) => "hung",
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
            Self::Side(spot) | Self::Hung(spot) | Self::Corner(spot) => Some(spot.inside()),
            Self::Stray(at) => Some(*at),
            _ => None,
        }
    }
}

impl Refused {
    /// Why a picture of that size, in columns and rows, cannot be measured by that sheet or card.
    pub(super) fn by_sheet(unseen: Unseen, of: Sheet, size: (usize, usize)) -> Self {
        let spot = |at| Spot { of, at, size };
        match unseen {
            Unseen::Paper => Self::NoSheet,
            Unseen::Card => Self::NoCard,
            Unseen::Sheet => Self::NotThatSheet(of),
            Unseen::Side(at) => Self::Side(spot(at)),
            Unseen::Corner(at) => Self::Corner(spot(at)),
            Unseen::Tilt(degrees) => Self::Tilt(degrees),
            Unseen::Far(pixels) => Self::Far(pixels),
            Unseen::Bent(mm) => Self::Bent(of, mm),
        }
    }
}

/// A place of a sheet or card in a picture, or outside it where it was looked for in vain.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spot {
    /// What has that place.
    pub of: Sheet,
    /// The place, in pixels.
    pub at: Point,
    /// Columns and rows of the picture.
    pub size: (usize, usize),
}

impl Spot {
    /// The place, or the nearest one inside the picture.
    fn inside(self) -> Point {
        let (columns, rows) = self.size;
        let within = |value: f64, count: usize| value.clamp(0.0, (count.max(1) - 1) as f64);
        Point::new(within(self.at.x, columns), within(self.at.y, rows))
    }

    /// Which way it lies from the middle of the picture, in words.
    fn whereabouts(self) -> &'static str {
        const ROUND: [&str; 8] = [
            "right",
            "bottom right",
            "bottom",
            "bottom left",
            "left",
            "top left",
            "top",
            "top right",
        ];
        let (columns, rows) = self.size;
        // A picture is longer one way: its corners lie at 45 degrees all the same.
        let x = self.at.x / columns.max(1) as f64 - 0.5;
        let y = self.at.y / rows.max(1) as f64 - 0.5;
        let eighths = (y.atan2(x) / std::f64::consts::FRAC_PI_4).rem_euclid(8.0);
        let nearest = (eighths + 0.5).floor() % 8.0;
        let found = (0..8)
            .zip(ROUND)
            .find(|(place, _)| f64::from(*place) == nearest);
        found.map_or("edge", |(_, words)| words)
    }
}
