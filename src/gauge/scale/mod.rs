//! What in the picture has a known size, and the camera by it.

mod ruler;
mod scan;

use kurbo::Point;
use nalgebra::{Matrix3, SMatrix, SVector, Vector3};
use serde::{Deserialize, Serialize};

use super::camera::Camera;
use super::picture::Picture;
use super::refused::Refused;
use super::sheet::{self, Seen, Sheet, UNKNOWNS};
use super::shoe::{Ask, Warning};
use super::shown::Dot;
use super::spread::Estimates;
use super::steel::Followed;
use crate::piece::Feature;

/// What in the picture has a known size.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub enum Scale {
    /// A sheet of paper under the shoe, or a card beside it.
    Sheet(Sheet),
    /// A ruler beside the shoe.
    Ruler {
        /// Two places on it that a person marked, in pixels.
        ends: Option<[Dot; 2]>,
        /// How far they are apart, in mm.
        mm: f64,
    },
    /// None: the picture was scanned flat, with so many dots per inch; `None` where the file
    /// is to tell.
    Scan(Option<f64>),
}

/// A ruler's scale lies this high above the ground, in mm, with its standard uncertainty; common
/// practice, no source.
const RULER: (f64, f64) = (0.8, 0.4);

/// Of a wall that shows by a lean that is not known so much is taken for the face, or of the face
/// for wall; a judgement from rendered photographs of known shoes.
const WALL_TAKEN: f64 = 0.5;
/// A value lies within so many standard uncertainties with about 95 % (JCGM 100:2008, 6.3.3).
const COVERAGE: f64 = 2.0;

impl Scale {
    /// How high above the ground it lies, in mm, with its standard uncertainty. Heights are
    /// counted from there.
    pub fn lift(self) -> (f64, f64) {
        match self {
            Self::Ruler { .. } => RULER,
            Self::Sheet(of) => of.about().thickness,
            Self::Scan(_) => (0.0, 0.0),
        }
    }

    /// An outline of steel, less sure by how vague the camera's lean is beside a small scale: where
    /// a wall is seen and where it is hidden is told by that, and a wall may be taken for the face.
    pub(super) fn less_sure(self, outline: Followed, seen: &Seen, height: f64) -> Followed {
        if matches!(self, Self::Sheet(of) if !of.about().is_beside) {
            return outline;
        }
        let lean = seen.covariance.diagonal().iter().take(2).sum::<f64>();
        let off = WALL_TAKEN * height.abs() * (lean / 2.0).sqrt();
        let unsure = outline.unsure.iter().map(|unsure| unsure.hypot(off));
        Followed {
            unsure: unsure.collect(),
            ..outline
        }
    }

    /// What whoever relies on it should know.
    pub(super) fn warnings(self) -> Vec<Warning> {
        let of_ruler = matches!(self, Self::Ruler { .. });
        of_ruler.then_some(Warning::Level).into_iter().collect()
    }

    /// # Errors
    ///
    /// [`Refused::Vague`] where a card tells too little.
    pub(super) fn check(self, estimates: &Estimates) -> Result<(), Refused> {
        let sure = estimates.uncertainties().into_iter();
        let mut each = estimates.features.iter().zip(sure);
        let width = each.find(|(feature, _)| **feature == Feature::OverallWidth);
        let vague = COVERAGE * width.map_or(0.0, |(_, unsure)| unsure);
        match self {
            Self::Sheet(of) if vague > of.about().most_vague => Err(Refused::Vague(vague)),
            _ => Ok(()),
        }
    }

    /// What outlines it in the picture: corners on its plane in mm, as [`Camera`] has them. A
    /// scan has nothing of the kind.
    pub fn corners(self, camera: &Camera) -> Vec<Point> {
        match self {
            Self::Sheet(sheet) => sheet.corners().to_vec(),
            Self::Ruler { ends, .. } => ends
                .into_iter()
                .flatten()
                .filter_map(|end| camera.meets(Point::from(end), 0.0))
                .collect(),
            Self::Scan(_) => Vec::new(),
        }
    }
}

/// The camera that took the picture.
///
/// # Errors
///
/// What the scale lacks, and what to do.
pub fn see(picture: &Picture, ask: &Ask) -> Result<Seen, Refused> {
    match ask.scale {
        Scale::Sheet(of) => {
            let size = (picture.width(), picture.height());
            let seen = sheet::see(picture, of, ask.focal, ask.corners);
            seen.map_err(|unseen| Refused::by_sheet(unseen, of, size))
        }
        Scale::Ruler { ends, mm } => {
            let ends = ends.ok_or(Refused::Unmarked)?.map(Point::from);
            ruler::see(picture, ends, mm, ask.focal)
        }
        Scale::Scan(dots) => {
            let dots = dots.or(ask.density).ok_or(Refused::NoDensity)?;
            scan::see(picture, dots)
        }
    }
}

/// A camera that looks straight down from so high, in mm, at the world's origin; of no lens but
/// its focal length, in pixels, is known.
fn straight_down(centre: Point, focal: f64, height: f64) -> Camera {
    Camera {
        rotation: Matrix3::from_diagonal(&Vector3::new(1.0, -1.0, -1.0)),
        translation: Vector3::new(0.0, 0.0, height),
        focal,
        centre,
        k1: 0.0,
    }
}

/// What shifts that are independent come to; each is what [`sheet::moved`] takes, by one standard
/// uncertainty of one cause.
fn covariance(shifts: &[SVector<f64, UNKNOWNS>]) -> SMatrix<f64, UNKNOWNS, UNKNOWNS> {
    let sum = shifts.iter().map(|shift| shift * shift.transpose());
    // Where the world lies is a matter of choice here, so that nothing is unsure about it; the
    // least that a matrix needs to have a root.
    sum.sum::<SMatrix<f64, UNKNOWNS, UNKNOWNS>>() + SMatrix::identity() * LEAST
}

/// A millionth of each unit.
const LEAST: f64 = 1e-12;
