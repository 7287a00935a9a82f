use kurbo::{Point, Vec2};

use super::Refused;
use super::check::Outlines;
use super::frame::{Both, Frame, Side};
use super::round::{Round, furthest};
use crate::piece::Chain;

/// Chords that a branch's length is told by.
const CHORDS: u32 = 60;

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
    /// The shoe as it lies in its own frame.
    pub fn of(outlines: &Outlines, frame: Frame) -> Result<Self, Refused> {
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
        let corners: Vec<Point> = ring.sides().map(|(at, _)| at).collect();
        let far = |x, y| furthest(&ring, &corners, Vec2::new(x, y)).by;
        // Behind there may be corners, which a parabola would cut.
        let back = corners.iter().map(|at| at.y).fold(0.0, f64::max);
        let (width, length) = (far(-1.0, 0.0) + far(1.0, 0.0), far(0.0, -1.0) + back);
        Ok(Self {
            toe_along: branches.nearest(Point::ZERO, &mut 0).along,
            inner: inner.collect(),
            width,
            length,
            back,
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

    /// Length of a branch's outer edge from the toe to the heel corner.
    ///
    /// Noise lengthens an outline, by a quarter as much where chords are twice as long, while
    /// an arc is longer than its chords by four times as much. So it is told by chords of about
    /// 3 mm, and by those of 6 mm what an arc adds to them (L. F. Richardson, Philosophical
    /// Transactions of the Royal Society A 210, 1911, from memory).
    pub fn branch_length(&self, side: Side) -> f64 {
        let chords = |count: u32| {
            let share = |place: u32| f64::from(place) / f64::from(count);
            let at = |place: u32| self.branches.at(self.along(side, share(place)));
            let each = (0..count).map(|place| at(place).distance(at(place + 1)));
            each.sum::<f64>()
        };
        let (fine, coarse) = (chords(CHORDS), chords(CHORDS / 2));
        fine + (fine - coarse) / 3.0
    }

    /// How far along its own branch a place is whose length along both is known: the branch,
    /// and the share of it from the toe.
    pub fn share(&self, along: f64) -> (Side, f64) {
        let from_toe = along - self.toe_along;
        let side = if from_toe < 0.0 {
            Side::Left
        } else {
            Side::Right
        };
        (side, from_toe.abs() / self.branch(side))
    }

    /// Length along every corner of the outer edge from the toe to the heel corner.
    fn branch(&self, side: Side) -> f64 {
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
