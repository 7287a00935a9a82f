//! The sheet that a shoe lies on, found in the picture, and the camera by it.

mod about;
mod card;
mod check;
mod edges;
mod find;
mod fit;
mod marked;
mod sides;
mod size;

use kurbo::{Point, Vec2};
use nalgebra::Point3;

pub use self::about::About;
pub(super) use self::check::LEAST_PIXELS;
pub use self::check::Unseen;
pub use self::edges::{Edge, Search, edges};
pub use self::fit::{Before, Seen, UNKNOWNS, fit, moved, residuals};
pub use self::marked::BY_HAND;
pub use self::size::Sheet;
use super::camera::Camera;
use super::grid::Grid;
use super::homography::Homography;
use super::picture::{Picture, brightness};
use super::pose::camera_that_sees;

/// Pixels across of the small picture in which the sheet is found.
const SMALL: usize = 400;
/// Of most cameras in telephones the focal length is this share of the picture's long side;
/// common practice, no source.
const USUAL_FOCAL: (f64, f64) = (0.8, 0.25);
/// The optical axis meets the picture off its middle by this share of its long side; common
/// practice, no source.
pub(super) const USUAL_OFF: f64 = 0.004;
/// Radial terms of lenses of telephones, after their own correction; common practice, no source.
pub(super) const USUAL_BEND: f64 = 0.03;
/// No edge is seen better than this, in pixels.
const LEAST_SPREAD: f64 = 0.03;

/// The camera that took the picture, found by the sheet in it.
///
/// *Shape:* `focal` is the focal length in pixels with the uncertainty of its logarithm, if the
/// file tells; `marked` are its corners in pixels, in order round it, where a person marked
/// them. *Errors:* what of the sheet is not seen.
pub fn see(
    picture: &Picture,
    sheet: Sheet,
    focal: Option<(f64, f64)>,
    marked: Option<[Point; 4]>,
) -> Result<Seen, Unseen> {
    let before = before(picture, focal);
    if let Some(corners) = marked {
        return marked::see_marked(picture, sheet, &before, corners);
    }
    let (small, by) = shrunk(picture);
    let scale = by as f64;
    let about = sheet.about();
    let corners = if about.is_beside {
        let each = find::quadrangles(&small).into_iter();
        card::most_like(
            each.map(|corners| corners.map(|at| full(at, scale))),
            sheet,
            &before,
        )
        .ok_or(Unseen::Card)?
    } else {
        let corners = find::patch(&small).ok_or(Unseen::Paper)?;
        corners.map(|at| full(at, scale))
    };
    let coarse = |at: Point| small.between((at.x + 0.5) / scale - 0.5, (at.y + 0.5) / scale - 0.5);
    let (start, _) = start(sheet, corners, &before).ok_or(Unseen::Sheet)?;
    let search = Search {
        reach: about.reach * scale,
        spacing: 2.0,
        step: 0.5 * scale,
    };
    let found = edges(&coarse, &start, sheet, search);
    let seen = fit(&start, sheet, &found, &before).ok_or(Unseen::Sheet)?;
    refined(picture, sheet, &seen.camera, &before, 1.2 * scale)
}

/// The small picture in which things are found, and how many pixels make one of it.
fn shrunk(picture: &Picture) -> (Grid<f32>, usize) {
    let by = (picture.width().max(picture.height()) / SMALL).max(1);
    (picture.shrunk(by), by)
}

/// A place of the small picture in the large one.
fn full(at: Point, scale: f64) -> Point {
    Point::new((at.x + 0.5) * scale - 0.5, (at.y + 0.5) * scale - 0.5)
}

/// The convex outline of what is plain and bright and covers most of the picture, in pixels;
/// nothing where there is no such patch.
pub(super) fn plain_patch(picture: &Picture) -> Vec<Point> {
    let (small, by) = shrunk(picture);
    let hull = find::patch_hull(&small).unwrap_or_default();
    hull.into_iter().map(|at| full(at, by as f64)).collect()
}

/// From a camera near it to the one that the edges tell, looked for within so many pixels.
fn refined(
    picture: &Picture,
    sheet: Sheet,
    near: &Camera,
    before: &Before,
    within: f64,
) -> Result<Seen, Unseen> {
    let light = |at: Point| picture.light(at).map(brightness);
    let search = Search {
        reach: within,
        spacing: 1.0,
        step: 0.5,
    };
    let found = edges(&light, near, sheet, search);
    let nearer = fit(near, sheet, &found, before).ok_or(Unseen::Sheet)?;
    // Where that one was off, a side may have lain too far away to be looked at.
    let found = edges(&light, &nearer.camera, sheet, search);
    let seen = fit(&nearer.camera, sheet, &found, before).ok_or(Unseen::Sheet)?;
    check::check(picture, sheet, &seen, &found)?;
    Ok(sides::with_sides_off(&seen, sheet, &found))
}

/// What is known of a camera before the sheet is looked at.
fn before(picture: &Picture, focal: Option<(f64, f64)>) -> Before {
    let long = picture.width().max(picture.height()) as f64;
    Before {
        focal: focal.unwrap_or((USUAL_FOCAL.0 * long, USUAL_FOCAL.1)),
        centre: (picture.middle(), USUAL_OFF * long),
        k1: (0.0, USUAL_BEND),
        least_spread: LEAST_SPREAD,
    }
}

/// A camera that sees the sheet with its corners here, in whichever way round suits better, and
/// the corners in that way.
fn start(sheet: Sheet, corners: [Point; 4], before: &Before) -> Option<(Camera, [Point; 4])> {
    let [a, b, c, d] = corners;
    let (centre, _) = before.centre;
    let cameras = [[a, b, c, d], [b, c, d, a]].into_iter().filter_map(|way| {
        let on = sheet.corners().into_iter();
        let pairs: Vec<(Point, Point)> = on.zip(way.map(|at| (at - centre).to_point())).collect();
        let camera = camera_that_sees(&Homography::of(&pairs)?, centre, before.focal.0)?;
        let on = sheet.corners().into_iter();
        let off: Option<Vec<Vec2>> = on
            .zip(way)
            .map(|(on, at)| Some(camera.project(Point3::new(on.x, on.y, 0.0))? - at))
            .collect();
        let off: f64 = off?.iter().map(|off| off.hypot2()).sum();
        Some((off, camera, way))
    });
    cameras
        .min_by(|one, other| one.0.total_cmp(&other.0))
        .map(|(_, camera, way)| (camera, way))
}
