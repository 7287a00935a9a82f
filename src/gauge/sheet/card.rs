use kurbo::{Point, Vec2};
use nalgebra::{Point3, Rotation3, SVector};

use super::edges::Edge;
use super::fit::{Before, Seen, UNKNOWNS, fit};
use super::size::Sheet;
use super::start;
use crate::gauge::camera::Camera;

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
/// Each side is moved by its uncertainty, and the camera found anew (JCGM 100:2008, 5.1.3 note 2).
pub fn with_sides_off(seen: &Seen, edges: &[Edge], before: &Before) -> Seen {
    let mut covariance = seen.covariance;
    for side in 0..4 {
        let moved: Vec<Edge> = edges
            .iter()
            .filter_map(|edge| {
                if edge.side == side {
                    inwards(&seen.camera, *edge)
                } else {
                    Some(*edge)
                }
            })
            .collect();
        if let Some(other) = fit(&seen.camera, Sheet::Card, &moved, before) {
            let off = between(&seen.camera, &other.camera);
            covariance += off * off.transpose();
        }
    }
    Seen {
        covariance,
        ..seen.clone()
    }
}

/// An edge as far inside as a side may lie off.
fn inwards(camera: &Camera, edge: Edge) -> Option<Edge> {
    let inward = [(0.0, -1.0), (-1.0, 0.0), (0.0, 1.0), (1.0, 0.0)];
    let inward = inward.get(edge.side).copied().map(Vec2::from)?;
    let at = camera.meets(edge.at, 0.0)? + inward * SIDE_OFF;
    Some(Edge {
        at: camera.project(Point3::new(at.x, at.y, 0.0))?,
        ..edge
    })
}

/// What [`super::moved`] takes from one camera to another.
fn between(from: &Camera, to: &Camera) -> SVector<f64, UNKNOWNS> {
    let turned = Rotation3::from_matrix_unchecked(to.rotation * from.rotation.transpose());
    let turned = turned.scaled_axis();
    let moved = to.translation - from.translation;
    let centre = to.centre - from.centre;
    SVector::from([
        turned.x,
        turned.y,
        turned.z,
        moved.x,
        moved.y,
        moved.z,
        (to.focal / from.focal).ln(),
        centre.x,
        centre.y,
        to.k1 - from.k1,
    ])
}
