//! The outer outline taken apart at its heel corners.

use kurbo::{Point, Vec2};

use super::Refused;
use super::frame::{Frame, Side};
use crate::gauge::polygon::area;
use crate::piece::Chain;

/// How far to each side of the furthest corner the furthest point is told from, as a share of
/// the outline's length: about 1.5 mm.
const AROUND: f64 = 0.003;
/// Points to each side there.
const POINTS: i32 = 8;

/// The outer outline in a frame of the shoe, from the left heel corner over the toe to the
/// right one, and from there on to the left.
pub(super) struct Round {
    /// All of it, closed.
    pub ring: Chain,
    /// Both branches, from the left heel corner to the right one.
    pub branches: Chain,
    /// Behind them, from the right heel corner to the left one: the back edge, or of an open
    /// shoe its heels and inner edge.
    pub rest: Chain,
}

impl Round {
    /// # Errors
    ///
    /// [`Refused::Missing`] where both heel corners are one.
    pub fn of(outer: &[Point], frame: &Frame) -> Result<Self, Refused> {
        let mut corners: Vec<Point> = outer.iter().map(|at| frame.into_shoe(*at)).collect();
        // From left to right over the toe turns from x towards y.
        if area(&corners) < 0.0 {
            corners.reverse();
        }
        corners.extend(corners.first().copied());
        let missing = Refused::Missing("the heel corners");
        let ring = Chain::of(&corners).ok_or(missing.clone())?;
        let corner = |side| heel_corner(&ring, &corners, side);
        let (left, right) = (corner(Side::Left), corner(Side::Right));
        let branches = Chain::of(&ring.part(left, right));
        let rest = Chain::of(&ring.part(right, left));
        let (Some(branches), Some(rest)) = (branches, rest) else {
            return Err(missing);
        };
        Ok(Self {
            ring,
            branches,
            rest,
        })
    }
}

/// Length along a closed chain to its heel corner: the point furthest back and out, at 45
/// degrees.
fn heel_corner(ring: &Chain, corners: &[Point], side: Side) -> f64 {
    furthest(ring, corners, Vec2::new(side.sign(), 1.0)).along
}

/// The point of a closed chain that is furthest in a direction.
pub(super) struct Furthest {
    /// Length along the chain to it.
    pub along: f64,
    /// How far it is from the origin in the direction.
    pub by: f64,
}

/// By the parabola through what lies about the furthest corner (least squares), so that it
/// moves evenly when the polygon does, and noise pushes it out less than a single corner.
pub(super) fn furthest(ring: &Chain, corners: &[Point], way: Vec2) -> Furthest {
    let way = way.normalize();
    let far = |point: Point| point.to_vec2().dot(way);
    let corner = corners
        .iter()
        .max_by(|one, other| far(**one).total_cmp(&far(**other)));
    let corner = corner.copied().unwrap_or_default();
    let at = ring.nearest(corner, &mut 0).along;
    let step = AROUND * ring.length() / f64::from(POINTS);
    let places = (-POINTS..=POINTS).map(f64::from);
    let count = places.clone().map(|_| 1.0).sum::<f64>();
    let middle = places.clone().map(|place| place * place).sum::<f64>() / count;
    let (mut mean, mut slope, mut bend, mut squares) = (0.0, 0.0, 0.0, 0.0);
    for place in places {
        let along = (at + place * step).rem_euclid(ring.length());
        let below = far(ring.at(along)) - far(corner);
        let square = place * place - middle;
        mean += below / count;
        slope += place * below / (count * middle);
        bend += square * below;
        squares += square * square;
    }
    bend /= squares;
    let most = f64::from(POINTS);
    // A straight edge has no furthest point.
    let top = if bend < 0.0 {
        (-slope / (2.0 * bend)).clamp(-most, most)
    } else {
        0.0
    };
    Furthest {
        along: (at + top * step).rem_euclid(ring.length()),
        // Where the outline bends sharply the parabola overshoots.
        by: far(corner) + (mean + slope * top + bend * (top * top - middle)).min(0.0),
    }
}
