use kurbo::{Point, Vec2};

use super::Edges;
use crate::gauge::features::{Frame, Refused, Side, TOE, branches_of};
use crate::piece::Chain;

/// Behind this share of a branch lies its heel.
const HEEL: f64 = 0.93;

/// A part of a shoe.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Part {
    /// Within 35 degrees of the way to the toe.
    Toe,
    /// A branch, at a share of its length from the toe.
    Branch(Side, f64),
    /// The free heel of a branch.
    Heel(Side),
    /// The bar.
    Bar,
}

/// Which edge of the steel.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Edge {
    /// The one outside.
    Outer,
    /// The one inside.
    Inner,
}

/// Where on a shoe a place of its edges is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Whereabouts {
    /// The part.
    pub part: Part,
    /// The edge.
    pub edge: Edge,
}

impl Whereabouts {
    /// The kind of edge that it is laid over; either where a free heel ends, as the corner between
    /// both turns with the shoe.
    pub(super) fn over(&self) -> Option<Edge> {
        (!matches!(self.part, Part::Heel(_))).then_some(self.edge)
    }
}

/// The outer edge of a shoe in its own frame, to tell by where a place is.
pub(super) struct Map {
    pub branches: Chain,
    /// From the right heel corner to the left one: the back of a bar, or the inside of an open
    /// shoe.
    pub rest: Chain,
    has_bar: bool,
    toe_along: f64,
    half_width: f64,
}

impl Map {
    pub fn of(shoe: &Edges) -> Result<Self, Refused> {
        let own = Frame {
            toe: Point::ZERO,
            right: Vec2::new(1.0, 0.0),
            back: Vec2::new(0.0, 1.0),
        };
        let (branches, rest) = branches_of(&shoe.outer, &own)?;
        let across = shoe.outer.iter().map(|at| at.x);
        let (least, most) = across.fold((0.0_f64, 0.0_f64), |(least, most), x| {
            (least.min(x), most.max(x))
        });
        Ok(Self {
            toe_along: branches.nearest(Point::ZERO, &mut 0).along,
            half_width: (most - least) / 2.0,
            has_bar: !shoe.inner.is_empty(),
            branches,
            rest,
        })
    }

    /// Of a place on an edge; `is_opening` says whether that is what a bar closes in.
    pub fn of_place(&self, at: Point, is_opening: bool) -> Whereabouts {
        let branch = self.branches.nearest(at, &mut 0);
        let rest = self.rest.nearest(at, &mut 0);
        let is_behind = rest.distance() < branch.distance();
        let from_toe = branch.along - self.toe_along;
        let (side, length) = if from_toe < 0.0 {
            (Side::Left, self.toe_along)
        } else {
            (Side::Right, self.branches.length() - self.toe_along)
        };
        let share = (from_toe.abs() / length).min(1.0);
        let is_toe = at.x.atan2(self.half_width - at.y).abs() <= TOE;
        let part = if is_toe {
            Part::Toe
        } else if self.has_bar && is_behind {
            Part::Bar
        } else if !self.has_bar && share > HEEL {
            Part::Heel(side)
        } else {
            Part::Branch(side, share)
        };
        let is_inner = is_opening || !self.has_bar && is_behind;
        Whereabouts {
            part,
            edge: if is_inner { Edge::Inner } else { Edge::Outer },
        }
    }
}
