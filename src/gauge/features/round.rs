//! The outer outline taken apart at its heel corners.

use kurbo::{Point, Vec2};

use super::Refused;
use super::check::area;
use super::frame::{Frame, Side};
use crate::piece::Chain;

/// How far to each side of the furthest point a heel corner is found from, as a share of the
/// outline's length: about 1.5 mm.
const CORNER: f64 = 0.003;
/// Points to each side there.
const CORNER_POINTS: i32 = 8;

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
/// degrees. Between corners of the polygon it is told by the parabola through what lies about
/// the furthest (least squares), so that it moves evenly when the polygon does.
fn heel_corner(ring: &Chain, corners: &[Point], side: Side) -> f64 {
    let out = Vec2::new(side.sign(), 1.0);
    let far = |point: Point| point.to_vec2().dot(out);
    let furthest = corners
        .iter()
        .max_by(|one, other| far(**one).total_cmp(&far(**other)));
    let furthest = furthest.copied().unwrap_or_default();
    let at = ring.nearest(furthest, &mut 0).along;
    let step = CORNER * ring.length() / f64::from(CORNER_POINTS);
    let places = (-CORNER_POINTS..=CORNER_POINTS).map(f64::from);
    let count = places.clone().map(|_| 1.0).sum::<f64>();
    let middle = places.clone().map(|place| place * place).sum::<f64>() / count;
    let (mut slope, mut bend, mut bends) = (0.0, 0.0, 0.0);
    for place in places {
        let along = (at + place * step).rem_euclid(ring.length());
        let value = far(ring.at(along)) - far(furthest);
        let square = place * place - middle;
        slope += place * value / (count * middle);
        bend += square * value;
        bends += square * square;
    }
    let top = -slope / (2.0 * bend / bends);
    let most = f64::from(CORNER_POINTS);
    let top = if bend < 0.0 {
        top.clamp(-most, most)
    } else {
        0.0
    };
    (at + top * step).rem_euclid(ring.length())
}
