use kurbo::Point;

use super::{Measures, TOE};
use crate::piece::Feature;

/// Stations of an edge that is looked at as a whole.
const STATIONS: u32 = 80;

impl Measures {
    /// Places of the outlines that a feature rests on, in the frame of the input: one of them off,
    /// and its value is. Empty where such a shoe has none.
    pub fn rests_on(&self, feature: Feature) -> Vec<Point> {
        let places = match feature {
            Feature::OverallWidth => self.extremes(|at| at.x),
            Feature::OverallLength => [self.toe(), self.extremes(|at| at.y)].concat(),
            Feature::WebToe => [self.toe(), self.in_shoe(feature)].concat(),
            Feature::BranchLengthLeft
            | Feature::BranchChordLeft
            | Feature::BranchLengthRight
            | Feature::BranchChordRight => [self.toe(), self.corners()].concat(),
            Feature::BranchDeviationMax | Feature::BranchDeviationRms => self.branches_stations(),
            Feature::ToeRadius => self.toe(),
            Feature::BarBackStraightness | Feature::BarBackSquareness => {
                [self.back_edge(), self.corners()].concat()
            }
            _ => self.in_shoe(feature),
        };
        places
            .into_iter()
            .map(|at| self.frame.into_input(at))
            .collect()
    }

    fn in_shoe(&self, feature: Feature) -> Vec<Point> {
        let line = self.line_of(feature);
        line.iter().map(|at| self.frame.into_shoe(*at)).collect()
    }

    /// Both heel corners: the mirror axis, and with it the toe, turns with either.
    fn corners(&self) -> Vec<Point> {
        vec![self.heel_corners.left, self.heel_corners.right]
    }

    fn branches_stations(&self) -> Vec<Point> {
        let places = self.shoe.branches.spread(STATIONS);
        places.collect()
    }

    /// The toe as far as its circle is fitted: a bevel that hides a part of it may hide all.
    fn toe(&self) -> Vec<Point> {
        let half = self.width / 2.0;
        let mut places = self.branches_stations();
        places.retain(|at| at.x.atan2(half - at.y).abs() <= TOE);
        places
    }

    /// Where the outer edge reaches least and most.
    fn extremes(&self, of: impl Fn(Point) -> f64) -> Vec<Point> {
        let corners = || self.shoe.ring.sides().map(|(at, _)| at);
        let by = |one: &Point, other: &Point| of(*one).total_cmp(&of(*other));
        let ends = [corners().min_by(by), corners().max_by(by)];
        ends.into_iter().flatten().collect()
    }

    /// The back edge of a bar where it is held against a line.
    fn back_edge(&self) -> Vec<Point> {
        let line = self.in_shoe(Feature::BarBackSquareness);
        let (Some(from), Some(to)) = (line.first(), line.last()) else {
            return Vec::new();
        };
        let share = |place: u32| f64::from(place) / f64::from(STATIONS);
        (0..=STATIONS)
            .map(|place| from.lerp(*to, share(place)))
            .collect()
    }
}
