//! How the shoe lies.

use std::f64::consts::PI;

use kurbo::{BezPath, Point, Vec2};

use super::Refused;
use super::frame::Frame;
use super::round::Round;
use crate::piece::{MirrorAxis, mirror_axis, mirror_axis_of};

/// Steps along the branches whose ends are mirrored.
const STEPS: u32 = 600;
/// How often the heel corners are found anew from the axis that the last ones gave.
const ROUNDS: u32 = 2;
/// How near its ends the shoe's widths are compared, as a share of its length.
const NEAR_END: f64 = 0.05;
/// A toe wider than this share of the heels may be none.
const NARROW: f64 = 0.9;
/// An outline that is unclear at a place is so beside it, in mm.
const BESIDE: f64 = 5.0;
/// A mirror image may be one of what is unclear so far off, in mm: dents and bulges are no deeper.
const IMAGE: f64 = 12.0;
/// The axis may lie this far off the way to the toe: the cosine of 45 degrees.
const LEAST_ALIKE: f64 = std::f64::consts::FRAC_1_SQRT_2;

/// The frame of a shoe: y along its mirror axis.
///
/// *Definition:* the axis is the line in which the branches, from heel corner over the toe to
/// heel corner, mirrored, come nearest to the outer outline (least mean of squared distances).
/// The back edge is not mirrored, so that a crooked bar does not tilt what it is measured from.
/// *Method:* the axis of the whole outline, then Gauss–Newton steps from there
/// ([`mirror_axis_of`]).
///
/// # Errors
///
/// No axis, or none that the toe can lie on.
pub(super) fn frame(outer: &[Point], to_toe: Option<Vec2>) -> Result<Frame, Refused> {
    let path = path(outer);
    let missing = Refused::Missing("the mirror axis");
    let axis = mirror_axis(&path).ok_or(missing)?;
    let back = match to_toe {
        Some(to_toe) => told(axis.direction(), to_toe)?,
        None => from_narrow_to_wide(outer, Frame::along(axis.point, axis.direction()))?,
    };
    settled(outer, &path, axis, back, &[])
}

/// The frame of a shoe that lies very nearly as another one does; as [`frame`], without the search.
///
/// *Shape:* `unclear` has places where the outline cannot be relied on: neither what lies there
/// nor what it would be the mirror image of says where the axis is.
///
/// # Errors
///
/// No axis.
pub(super) fn frame_near(
    outer: &[Point],
    near: &Frame,
    unclear: &[Point],
) -> Result<Frame, Refused> {
    let axis = MirrorAxis {
        point: near.toe,
        angle: near.back.atan2().rem_euclid(PI),
    };
    settled(outer, &path(outer), axis, near.back, unclear)
}

/// The frame by an axis near the one that is to be found, and the way along it to the heels.
fn settled(
    outer: &[Point],
    path: &BezPath,
    mut axis: MirrorAxis,
    mut back: Vec2,
    unclear: &[Point],
) -> Result<Frame, Refused> {
    let missing = Refused::Missing("the mirror axis");
    for _ in 0..ROUNDS {
        let rough = Frame::along(axis.point, back);
        let round = Round::of(outer, &rough)?;
        let points = round.branches.spread(STEPS);
        let points: Vec<Point> = points
            .map(|point| rough.into_input(point))
            .filter(|point| {
                let image = axis.mirror(*point);
                is_clear(unclear, *point, BESIDE) && is_clear(unclear, image, IMAGE)
            })
            .collect();
        axis = mirror_axis_of(path, &points, axis).ok_or(missing.clone())?;
        let along = axis.direction();
        back = if along.dot(back) < 0.0 { -along } else { along };
    }
    let rough = Frame::along(axis.point, back);
    let round = Round::of(outer, &rough)?;
    let crossings = round.branches.sides().filter_map(|(from, to)| {
        let is_met = (from.x > 0.0) != (to.x > 0.0);
        is_met.then(|| from.lerp(to, from.x / (from.x - to.x)))
    });
    let toe = crossings.min_by(|one, other| one.y.total_cmp(&other.y));
    let toe = toe.ok_or(Refused::Missing("the toe"))?;
    Ok(Frame::along(rough.into_input(toe), back))
}

/// Whether no place that cannot be relied on lies so near to this one.
fn is_clear(unclear: &[Point], place: Point, near: f64) -> bool {
    unclear.iter().all(|at| at.distance(place) > near)
}

fn path(ring: &[Point]) -> BezPath {
    let mut path = BezPath::new();
    let mut points = ring.iter();
    if let Some(first) = points.next() {
        path.move_to(*first);
        points.for_each(|point| path.line_to(*point));
        path.close_path();
    }
    path
}

/// The direction along the axis away from the toe.
fn told(along: Vec2, to_toe: Vec2) -> Result<Vec2, Refused> {
    let alike = along.dot(to_toe) / to_toe.hypot();
    if alike.is_nan() {
        Err(Refused::NotANumber("the way to the toe"))
    } else if alike.abs() < LEAST_ALIKE {
        Err(Refused::AcrossToe)
    } else {
        Ok(if alike > 0.0 { -along } else { along })
    }
}

/// The direction along the axis from its narrower end, the toe, to its wider one: a toe is
/// round, and heels stand apart.
fn from_narrow_to_wide(outer: &[Point], frame: Frame) -> Result<Vec2, Refused> {
    let points: Vec<Point> = outer.iter().map(|at| frame.into_shoe(*at)).collect();
    let ys = || points.iter().map(|point| point.y);
    let (low, high) = (
        ys().fold(f64::INFINITY, f64::min),
        ys().fold(f64::NEG_INFINITY, f64::max),
    );
    let near = NEAR_END * (high - low);
    let width = |least: f64, most: f64| {
        let within = points.iter().filter(|at| least <= at.y && at.y <= most);
        let (left, right) = within.fold((f64::INFINITY, f64::NEG_INFINITY), |(left, right), at| {
            (left.min(at.x), right.max(at.x))
        });
        right - left
    };
    let (first, last) = (width(low, low + near), width(high - near, high));
    if first < NARROW * last {
        Ok(frame.back)
    } else if last < NARROW * first {
        Ok(-frame.back)
    } else {
        Err(Refused::NoToe)
    }
}
