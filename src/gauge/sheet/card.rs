use kurbo::Point;
use nalgebra::Point3;

use super::fit::Before;
use super::size::Sheet;
use super::start;

/// Corners of a card lie off by no more than this share of its diagonal where a camera sees one.
const MOST_OFF: f64 = 0.06;

/// Of quadrangles in a picture the one that is most like this card; `None` where none is.
pub fn most_like(
    quadrangles: impl Iterator<Item = [Point; 4]>,
    card: Sheet,
    before: &Before,
) -> Option<[Point; 4]> {
    let each = quadrangles.filter_map(|corners| Some((off(corners, card, before)?, corners)));
    let best = each.min_by(|one, other| one.0.total_cmp(&other.0));
    best.filter(|(off, _)| *off < MOST_OFF)
        .map(|(_, corners)| corners)
}

/// How far a quadrangle's corners lie from those of a card, as a share of its diagonal.
fn off(corners: [Point; 4], card: Sheet, before: &Before) -> Option<f64> {
    let (camera, way) = start(card, corners, before)?;
    let [one, _, three, _] = way;
    let offs = card.corners().into_iter().zip(way).map(|(on, at)| {
        let seen = camera.project(Point3::new(on.x, on.y, 0.0))?;
        Some((seen - at).hypot())
    });
    let offs = offs.collect::<Option<Vec<f64>>>()?;
    Some(offs.into_iter().fold(0.0, f64::max) / (three - one).hypot())
}
