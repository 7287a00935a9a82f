use kurbo::Point;
use nalgebra::{Point3, SMatrix, SVector};

use super::edges::Edge;
use super::fit::{Before, NUDGES, Seen, UNKNOWNS, moved, residuals, weight};
use super::size::Sheet;
use super::start;

/// Corners of a card lie off by no more than this share of its diagonal where a camera sees one.
const MOST_OFF: f64 = 0.06;
/// A side of a card lies off by this, in mm: its edge is rounded and casts a thin shadow, and
/// cards differ. *Source:* ISO/IEC 7810:2019 for how much they differ, 0.12 mm at most; the rest a
/// judgement.
const SIDE_OFF: f64 = 0.1;

/// Of quadrangles in a picture the one that is most like a card; `None` where none is.
pub fn most_like(
    quadrangles: impl Iterator<Item = [Point; 4]>,
    before: &Before,
) -> Option<[Point; 4]> {
    let each = quadrangles.filter_map(|corners| Some((off(corners, before)?, corners)));
    let best = each.min_by(|one, other| one.0.total_cmp(&other.0));
    best.filter(|(off, _)| *off < MOST_OFF)
        .map(|(_, corners)| corners)
}

/// How far a quadrangle's corners lie from those of a card, as a share of its diagonal.
fn off(corners: [Point; 4], before: &Before) -> Option<f64> {
    let (camera, way) = start(Sheet::Card, corners, before)?;
    let [one, _, three, _] = way;
    let offs = Sheet::Card.corners().into_iter().zip(way).map(|(on, at)| {
        let seen = camera.project(Point3::new(on.x, on.y, 0.0))?;
        Some((seen - at).hypot())
    });
    let offs = offs.collect::<Option<Vec<f64>>>()?;
    Some(offs.into_iter().fold(0.0, f64::max) / (three - one).hypot())
}

/// The same camera, less sure by how far the sides of a card may lie off as a whole: noise of
/// edges alone does not tell that.
///
/// Each side is moved by its uncertainty, and the camera with it, as least squares have it
/// (JCGM 100:2008, 5.1.3 note 2).
pub fn with_sides_off(seen: &Seen, edges: &[Edge]) -> Seen {
    let moved = (0..4).filter_map(|side| moved_by(seen, edges, side));
    let moved = moved.map(|off| off * off.transpose());
    Seen {
        covariance: seen.covariance + moved.sum::<SMatrix<f64, UNKNOWNS, UNKNOWNS>>(),
        ..seen.clone()
    }
}

/// By how much the camera is off if that side is. What weighs nothing stays so: a side that is off
/// is no stray.
fn moved_by(seen: &Seen, edges: &[Edge], side: usize) -> Option<SVector<f64, UNKNOWNS>> {
    let camera = &seen.camera;
    let off = residuals(camera, Sheet::Card, edges)?;
    let pixels = SIDE_OFF * camera.focal / camera.translation.norm();
    let mut slope = SVector::<f64, UNKNOWNS>::zeros();
    for (unknown, nudge) in NUDGES.iter().enumerate() {
        let mut by = SVector::<f64, UNKNOWNS>::zeros();
        *by.get_mut(unknown)? = *nudge;
        let nudged = residuals(&moved(camera, &by), Sheet::Card, edges)?;
        let each = edges.iter().zip(off.iter().zip(nudged));
        let here = each.filter(|(edge, _)| edge.side == side);
        let here =
            here.map(|(_, (off, nudged))| weight(*off, seen.spread) * (nudged - off) / nudge);
        *slope.get_mut(unknown)? = here.sum::<f64>() * pixels;
    }
    Some(seen.covariance * slope)
}
