use kurbo::{Point, Vec2};

use super::Refused;
use super::axis::frame;
use super::check::Outlines;
use super::frame::{Both, Frame, Side};
use super::round::Round;
use crate::piece::Chain;

/// A shoe's outlines in its own frame.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Shoe {
    pub frame: Frame,
    /// The outer outline, closed.
    pub ring: Chain,
    /// Both branches, from the left heel corner over the toe to the right one.
    pub branches: Chain,
    /// From the right heel corner back to the left one.
    pub rest: Chain,
    /// The inner outlines, closed.
    pub inner: Vec<Chain>,
    /// Length along the branches to the toe.
    pub toe_along: f64,
    /// Extent across the axis.
    pub width: f64,
    /// Extent along the axis.
    pub length: f64,
    /// How far back it reaches.
    pub back: f64,
}

impl Shoe {
    pub fn of(outlines: &Outlines, to_toe: Option<Vec2>) -> Result<Self, Refused> {
        let frame = frame(&outlines.outer, to_toe)?;
        let Round {
            ring,
            branches,
            rest,
        } = Round::of(&outlines.outer, &frame)?;
        let inner = outlines.inner.iter().filter_map(|inner| {
            let closed = inner.iter().chain(inner.first());
            let points: Vec<Point> = closed.map(|at| frame.into_shoe(*at)).collect();
            Chain::of(&points)
        });
        let (x, y) = extents(&ring);
        Ok(Self {
            toe_along: branches.nearest(Point::ZERO, &mut 0).along,
            inner: inner.collect(),
            width: x.1 - x.0,
            length: y.1 - y.0,
            back: y.1,
            frame,
            ring,
            branches,
            rest,
        })
    }

    pub fn corners(&self) -> Both<Point> {
        Both {
            left: self.branches.at(0.0),
            right: self.branches.at(self.branches.length()),
        }
    }

    /// Length along the outer edge from the toe to the heel corner.
    pub fn branch(&self, side: Side) -> f64 {
        match side {
            Side::Left => self.toe_along,
            Side::Right => self.branches.length() - self.toe_along,
        }
    }

    /// Length along the branches to a share of one of them, from the toe.
    pub fn along(&self, side: Side, share: f64) -> f64 {
        self.toe_along + side.sign() * share * self.branch(side)
    }

    /// How much steel a ray that begins outside meets first.
    pub fn steel(&self, from: Point, way: Vec2) -> Option<f64> {
        let chains = std::iter::once(&self.ring).chain(&self.inner);
        let mut met: Vec<f64> = chains
            .flat_map(Chain::sides)
            .filter_map(|side| meets(from, way, side))
            .collect();
        met.sort_by(f64::total_cmp);
        match met.as_slice() {
            [enters, leaves, ..] => Some(leaves - enters),
            _ => None,
        }
    }
}

/// How far along a ray a side is met. Of two sides that share an end on the ray one is.
fn meets(from: Point, way: Vec2, (start, end): (Point, Point)) -> Option<f64> {
    let (one, other) = (way.cross(start - from), way.cross(end - from));
    let is_met = (one > 0.0) != (other > 0.0);
    let at = start.lerp(end, one / (one - other));
    let far = (at - from).dot(way) / way.hypot();
    (is_met && far > 0.0).then_some(far)
}

/// Least and most of x and of y.
fn extents(chain: &Chain) -> ((f64, f64), (f64, f64)) {
    let none = (f64::INFINITY, f64::NEG_INFINITY);
    chain.sides().fold((none, none), |(x, y), (at, _)| {
        (
            (x.0.min(at.x), x.1.max(at.x)),
            (y.0.min(at.y), y.1.max(at.y)),
        )
    })
}
