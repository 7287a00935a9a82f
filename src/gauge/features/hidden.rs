use kurbo::Point;

use super::frame::Side;
use super::{Heels, Measures};
use crate::gauge::hidden::Hidden;
use crate::piece::{Chain, QUARTER_CLIP};

/// A clip hides so much of the outer edge to each side of its middle, in mm: about a half of the
/// widest, and what it is off its place; common practice, no source.
const CLIP: f64 = 15.0;
/// Calks hide the last of each branch and of a bar, so far from the heel corner, in mm; common
/// practice, no source.
const CALK: f64 = 25.0;
/// Places of an edge that is hidden, so far apart at most, in mm.
const STEP: f64 = 2.0;

impl Measures {
    /// Places of the outlines where something hides the edge, in the frame of the input.
    pub fn under(&self, hidden: Hidden) -> Vec<Point> {
        let places = match hidden {
            Hidden::Toe => self.about(self.shoe.toe_along),
            Hidden::LeftQuarter => self.about(self.shoe.along(Side::Left, QUARTER_CLIP)),
            Hidden::RightQuarter => self.about(self.shoe.along(Side::Right, QUARTER_CLIP)),
            Hidden::Heels => Side::BOTH
                .into_iter()
                .flat_map(|side| self.heel(side))
                .collect(),
        };
        places
            .into_iter()
            .map(|at| self.frame.into_input(at))
            .collect()
    }

    /// Along the outer edge about a place of it.
    fn about(&self, along: f64) -> Vec<Point> {
        let steps = (0..=30_i32).map(|step| f64::from(step) / 15.0 - 1.0);
        steps
            .map(|share| self.shoe.branches.at(along + share * CLIP))
            .collect()
    }

    /// The end of a branch: all of it behind a line across, and of a bar as much from the heel
    /// corner inwards.
    fn heel(&self, side: Side) -> Vec<Point> {
        let shoe = &self.shoe;
        let corner = *self.heel_corners.of(side);
        let from = match side {
            Side::Left => shoe.branches.at(CALK),
            Side::Right => shoe.branches.at(shoe.branches.length() - CALK),
        };
        let is_bar = matches!(self.heels, Heels::Bar(_));
        let is_there = |at: &Point| {
            let is_end = !is_bar || (at.x - corner.x).abs() < CALK;
            at.y >= from.y && at.x * side.sign() > 0.0 && is_end
        };
        let rings = std::iter::once(&shoe.ring).chain(&shoe.inner);
        rings.flat_map(finely).filter(is_there).collect()
    }
}

/// Places all along a line.
fn finely(line: &Chain) -> Vec<Point> {
    let steps = num_traits::AsPrimitive::<u32>::as_((line.length() / STEP).ceil().max(1.0));
    line.spread(steps).collect()
}
