mod edges;
mod find;
mod fit;
mod size;

pub use edges::{Edge, Search, edges};
pub use find::patch;
pub use fit::{Before, Seen, UNKNOWNS, fit, moved, residuals};
pub use size::Sheet;

use kurbo::{Point, Vec2};

use super::camera::Camera;
use super::homography::Homography;
use super::picture::{Picture, brightness};
use super::pose::camera_that_sees;

/// Why a sheet cannot be measured by.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Unseen {
    /// No patch of plain bright paper is large enough.
    NoPaper,
    /// The patch is no sheet seen from a camera.
    NoSheet,
    /// Side so many is seen over this share only.
    Side(usize, f64),
    /// Corner so many is not seen.
    Corner(usize),
}

/// Pixels across of the small picture in which the sheet is found.
const SMALL: usize = 400;

/// The camera that took the picture, found by the sheet in it.
///
/// *Shape:* `focal` is the focal length in pixels with the uncertainty of its logarithm, if the
/// file tells.
pub fn see(picture: &Picture, sheet: Sheet, focal: Option<(f64, f64)>) -> Result<Seen, Unseen> {
    let by = (picture.width().max(picture.height()) / SMALL).max(1);
    let small = picture.shrunk(by);
    let corners = patch(&small).ok_or(Unseen::NoPaper)?;
    let scale = by as f64;
    let full = |at: Point| Point::new((at.x + 0.5) * scale - 0.5, (at.y + 0.5) * scale - 0.5);
    let before = before(picture, focal);
    let start = start(sheet, corners.map(full), &before).ok_or(Unseen::NoSheet)?;
    let coarse = |at: Point| small.between((at.x + 0.5) / scale - 0.5, (at.y + 0.5) / scale - 0.5);
    let search = Search { reach: 6.0 * scale, spacing: 2.0, step: 0.5 * scale };
    let found = edges(&coarse, &start, sheet, search);
    let seen = fit(&start, sheet, &found, &before).ok_or(Unseen::NoSheet)?;
    let fine = |at: Point| picture.light(at).map(brightness);
    let search = Search { reach: 1.2 * scale, spacing: 1.0, step: 0.5 };
    let found = edges(&fine, &seen.camera, sheet, search);
    fit(&seen.camera, sheet, &found, &before).ok_or(Unseen::NoSheet)
}

/// What is known of a camera before the sheet is looked at.
fn before(picture: &Picture, focal: Option<(f64, f64)>) -> Before {
    let long = picture.width().max(picture.height()) as f64;
    Before {
        focal: focal.unwrap_or((0.8 * long, 0.25)),
        centre: (picture.middle(), 0.004 * long),
        k1: (0.0, 0.03),
    }
}

/// A camera that sees the sheet with its corners here, in whichever way round suits better.
fn start(sheet: Sheet, corners: [Point; 4], before: &Before) -> Option<Camera> {
    let [a, b, c, d] = corners;
    let ways = [[a, b, c, d], [b, c, d, a]];
    let (centre, _) = before.centre;
    let cameras = ways.into_iter().filter_map(|way| {
        let pairs: Vec<(Point, Point)> = sheet
            .corners()
            .into_iter()
            .zip(way.map(|at| (at - centre).to_point()))
            .collect();
        let camera = camera_that_sees(&Homography::of(&pairs)?, centre, before.focal.0)?;
        let off: Option<Vec<Vec2>> = sheet
            .corners()
            .iter()
            .zip(way)
            .map(|(on, at)| Some(camera.project(nalgebra::Point3::new(on.x, on.y, 0.0))? - at))
            .collect();
        Some((off?.iter().map(|off| off.hypot2()).sum::<f64>(), camera))
    });
    cameras
        .min_by(|one, other| one.0.total_cmp(&other.0))
        .map(|(_, camera)| camera)
}
