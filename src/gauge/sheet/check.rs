use kurbo::Point;
use nalgebra::Point3;

use super::edges::Edge;
use super::fit::{Seen, residuals};
use super::size::Sheet;
use crate::gauge::picture::Picture;

/// Why a picture cannot be measured by its sheet.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Unseen {
    /// No patch of plain bright paper is large enough.
    Paper,
    /// Nothing on the light ground looks like a card.
    Card,
    /// The patch is no sheet of that size seen by a camera.
    Sheet,
    /// Of the side with its middle here, in pixels, less than enough is seen.
    Side(Point),
    /// This corner, in pixels, is covered or outside the picture.
    Corner(Point),
    /// The camera leans by so many degrees.
    Tilt(f64),
    /// A millimetre is only so many pixels.
    Far(f64),
    /// The sheet's sides are no straight lines, by so many mm.
    Bent(f64),
}

/// Of each side at least this share is seen, and of its ends at least this: the toe of a shoe that
/// hangs over a short side leaves a half.
const LEAST_SIDE: f64 = 0.5;
const LEAST_END: f64 = 0.6;
/// How long an end is, in mm.
const END: f64 = 10.0;
/// An edge that lies off by more spreads, and more pixels, than this is none of the sheet's.
const ASTRAY: f64 = 4.0;
const ASTRAY_PIXELS: f64 = 0.5;
/// At a corner that has lifted a little, edges lie off by up to this, in mm.
const LIFTED: f64 = 1.2;
/// The camera leans by no more than this, in degrees.
const MOST_TILT: f64 = 35.0;
/// A millimetre is at least so many pixels.
pub const LEAST_PIXELS: f64 = 1.6;
/// The sides of a flat sheet are straight to this, in mm.
const MOST_BENT: f64 = 0.3;

/// Whether enough of the sheet is seen, and well enough.
pub fn check(picture: &Picture, sheet: Sheet, seen: &Seen, edges: &[Edge]) -> Result<(), Unseen> {
    let camera = &seen.camera;
    view(seen)?;
    let pixels = pixels(seen);
    let off = residuals(camera, sheet, edges).ok_or(Unseen::Sheet)?;
    let most = f64::max(ASTRAY * seen.spread, ASTRAY_PIXELS);
    let within = |most: f64| -> Vec<&Edge> {
        let both = edges.iter().zip(&off);
        both.filter(|(_, off)| off.abs() < most)
            .map(|(edge, _)| edge)
            .collect()
    };
    let (good, lifted) = (within(most), within(f64::max(most, LIFTED * pixels)));
    let corners = sheet.corners();
    let see = |at: Point| {
        camera
            .project(Point3::new(at.x, at.y, 0.0))
            .ok_or(Unseen::Sheet)
    };
    let mut worst = (f64::INFINITY, Point::ZERO);
    for (place, corner) in corners.into_iter().enumerate() {
        let pixel = see(corner)?;
        let ends = [place, (place + 3) % 4].map(|side| {
            let near = lifted
                .iter()
                .filter(|edge| edge.side == side && (edge.on_sheet - corner).hypot() < END);
            near.count() as f64
        });
        let [one, other] = ends;
        // What lies outside the picture is not seen at all.
        let least = picture.light(pixel).map_or(0.0, |_| one.min(other));
        if least < worst.0 {
            worst = (least, pixel);
        }
    }
    if worst.0 < LEAST_END * (END - sheet.about().rounding) {
        return Err(Unseen::Corner(worst.1));
    }
    let ends = corners.iter().zip(corners.iter().cycle().skip(1));
    for (side, (from, to)) in ends.enumerate() {
        let straight = good.iter().filter(|edge| edge.side == side).count();
        let long = (*to - *from).hypot() - 2.0 * sheet.about().rounding;
        if (straight as f64) < LEAST_SIDE * long {
            return Err(Unseen::Side(see(from.midpoint(*to))?));
        }
    }
    let bent = seen.spread / pixels;
    if bent > MOST_BENT {
        return Err(Unseen::Bent(bent));
    }
    Ok(())
}

/// Whether the camera looks down on the sheet from near enough.
pub fn view(seen: &Seen) -> Result<(), Unseen> {
    let tilt = seen.camera.tilt().to_degrees();
    if tilt > MOST_TILT {
        return Err(Unseen::Tilt(tilt));
    }
    let pixels = pixels(seen);
    if pixels < LEAST_PIXELS {
        return Err(Unseen::Far(pixels));
    }
    Ok(())
}

/// Pixels for a millimetre.
fn pixels(seen: &Seen) -> f64 {
    seen.camera.focal / seen.camera.lens().z
}
