//! Whether polygons can be the outlines of a shoe.

use kurbo::{Point, Rect, Vec2};

use super::Refused;
use crate::gauge::polygon::{area, sides};

/// Points that the outline of a shoe takes; fewer leave its toe a corner.
const OUTER: usize = 24;
/// Points that an opening takes.
const INNER: usize = 8;
/// What fills less of the square over its size is a line.
const LEAST_SHARE: f64 = 1e-3;

const THE_OUTER: &str = "the outer outline";
const AN_INNER: &str = "an inner outline";

/// Outlines without a point twice in a row, which neither cross nor touch.
pub(super) struct Outlines {
    /// The steel from outside; its last point is joined to its first.
    pub outer: Vec<Point>,
    /// What a bar closes in, alike.
    pub inner: Vec<Vec<Point>>,
}

impl Outlines {
    /// # Errors
    ///
    /// Fewer points than needed, a coordinate that is not finite, no area, sides that cross or
    /// touch, an inner outline outside the outer one.
    pub fn of(outer: &[Point], inner: &[Vec<Point>]) -> Result<Self, Refused> {
        let outer = ring(outer, OUTER, THE_OUTER)?;
        let inner = inner.iter().map(|points| ring(points, INNER, AN_INNER));
        let inner: Vec<Vec<Point>> = inner.collect::<Result<_, _>>()?;
        let rings = || std::iter::once(&outer).chain(&inner);
        let mut all: Vec<Side> = rings().flat_map(|ring| sides(ring)).collect();
        let met = meeting(rings().flatten().copied()).or_else(|| crossing(&mut all));
        if let Some(Point { x, y }) = met {
            return Err(Refused::Cross { x, y });
        }
        // Where nothing crosses, one point tells for all.
        let mut starts = inner.iter().filter_map(|ring| ring.first());
        if !starts.all(|start| is_around(&outer, *start)) {
            return Err(Refused::Outside(AN_INNER));
        }
        Ok(Self { outer, inner })
    }
}

fn ring(points: &[Point], needs: usize, what: &'static str) -> Result<Vec<Point>, Refused> {
    if !points.iter().all(|point| point.is_finite()) {
        return Err(Refused::NotANumber(what));
    }
    let mut ring = points.to_vec();
    ring.dedup();
    while ring.len() > 1 && ring.first() == ring.last() {
        ring.pop();
    }
    let has = ring.len();
    if has < needs {
        return Err(Refused::TooFew { what, has, needs });
    }
    let size = size(&ring);
    if !(size.hypot2() * size.hypot2()).is_finite() {
        return Err(Refused::NotANumber(what));
    }
    // Not a number where the size is too small for its square.
    let is_wide = area(&ring).abs() > LEAST_SHARE * size.hypot2();
    if is_wide {
        Ok(ring)
    } else {
        Err(Refused::NoArea(what))
    }
}

type Side = (Point, Point);

fn size(ring: &[Point]) -> Vec2 {
    let first = ring.first().copied().unwrap_or_default();
    let empty = Rect::from_points(first, first);
    let around = ring.iter().fold(empty, |all, point| all.union_pt(*point));
    Vec2::new(around.width(), around.height())
}

/// By the even-odd rule.
fn is_around(ring: &[Point], point: Point) -> bool {
    let met = sides(ring).filter(|(from, to)| {
        (from.y > point.y) != (to.y > point.y)
            && from.x + (point.y - from.y) / (to.y - from.y) * (to.x - from.x) > point.x
    });
    met.count() % 2 == 1
}

/// A corner that another one lies on.
fn meeting(corners: impl Iterator<Item = Point>) -> Option<Point> {
    let mut sorted: Vec<Point> = corners.collect();
    sorted.sort_by(|one, other| one.x.total_cmp(&other.x).then(one.y.total_cmp(&other.y)));
    let mut pairs = sorted.iter().zip(sorted.iter().skip(1));
    pairs.find(|(one, other)| one == other).map(|(one, _)| *one)
}

/// Where two sides cross, if any do: sides from left to right, each with those that begin
/// before it ends.
fn crossing(sides: &mut [Side]) -> Option<Point> {
    let left = |side: &Side| side.0.x.min(side.1.x);
    sides.sort_by(|one, other| left(one).total_cmp(&left(other)));
    let mut rest: &[Side] = sides;
    while let Some((one, after)) = rest.split_first() {
        let end = one.0.x.max(one.1.x);
        let met = after.iter().take_while(|other| left(other) <= end);
        if let Some(at) = met.filter_map(|other| meet(*one, *other)).next() {
            return Some(at);
        }
        rest = after;
    }
    None
}

/// Where two sides properly cross; sides that only share an end do not.
fn meet((a, b): Side, (c, d): Side) -> Option<Point> {
    let (low, high) = (a.y.min(b.y), a.y.max(b.y));
    if c.y.max(d.y) < low || high < c.y.min(d.y) {
        return None;
    }
    let (one, other) = (b - a, d - c);
    let (at_c, at_d) = (one.cross(c - a), one.cross(d - a));
    let (at_a, at_b) = (other.cross(a - c), other.cross(b - c));
    let crosses = at_c * at_d < 0.0 && at_a * at_b < 0.0;
    crosses.then(|| a + one * (at_a / (at_a - at_b)))
}
