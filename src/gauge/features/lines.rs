use kurbo::{Point, Vec2};

use super::frame::Side;
use super::heels::{Heels, MIDDLE, gap_line};
use super::shoe::Shoe;
use super::web::{HEEL, QUARTER, TOE_QUARTER, web_line};
use super::{Measures, TOE};
use crate::piece::Feature;

/// Points of a drawn arc or branch.
const STEPS: u32 = 40;

impl Measures {
    /// Where a feature is measured, as a line in the frame of the input; empty where such a shoe
    /// has none.
    pub fn line_of(&self, feature: Feature) -> Vec<Point> {
        let line = in_shoe(self, feature).unwrap_or_default();
        line.into_iter()
            .map(|at| self.frame.into_input(at))
            .collect()
    }

    /// Places along both branches, from the left heel corner over the toe to the right one, in
    /// the frame of the input, each with how far the branch stands out there beyond the mirror
    /// image of the other one, in mm.
    pub fn apart(&self) -> Vec<(Point, f64)> {
        let places = self.deviation.along.iter();
        places
            .map(|apart| {
                let at = on_branch(&self.shoe, apart.side, apart.share);
                (self.frame.into_input(at), apart.by)
            })
            .collect()
    }

    /// Across the web at a share of a branch, from the outer edge inwards, in the frame of the
    /// input; empty where the inner edge is not met.
    pub fn across(&self, side: Side, share: f64) -> Vec<Point> {
        let line = web_line(&self.shoe, side, share).map_or_else(Vec::new, Vec::from);
        line.into_iter()
            .map(|at| self.frame.into_input(at))
            .collect()
    }

    /// The mirror axis from a little before the toe to a little behind the shoe, in the frame of
    /// the input.
    pub fn axis(&self) -> [Point; 2] {
        let over = 0.06 * self.shoe.length;
        [-over, self.shoe.back + over].map(|y| self.frame.into_input(Point::new(0.0, y)))
    }

    /// The mirror image of a point of the input.
    pub fn mirrored(&self, point: Point) -> Point {
        let at = self.frame.into_shoe(point);
        self.frame.into_input(Point::new(-at.x, at.y))
    }
}

fn on_branch(shoe: &Shoe, side: Side, share: f64) -> Point {
    shoe.branches.at(shoe.along(side, share))
}

fn in_shoe(measures: &Measures, feature: Feature) -> Option<Vec<Point>> {
    let shoe = &measures.shoe;
    let corners = measures.heel_corners;
    let web = |side, share| web_line(shoe, side, share).map(Vec::from);
    let whole = |side| {
        let share = |place: u32| f64::from(place) / f64::from(STEPS);
        let places = (0..=STEPS).map(|place| on_branch(shoe, side, share(place)));
        Some(places.collect())
    };
    match feature {
        Feature::OverallWidth => across(shoe),
        Feature::OverallLength => {
            let toe = shoe.back - measures.length;
            Some([toe, shoe.back].map(|y| Point::new(0.0, y)).to_vec())
        }
        Feature::WebToe => Some(vec![Point::ZERO, Point::new(0.0, measures.webs.toe)]),
        Feature::WebToeQuarterLeft => web(Side::Left, TOE_QUARTER),
        Feature::WebToeQuarterRight => web(Side::Right, TOE_QUARTER),
        Feature::WebQuarterLeft => web(Side::Left, QUARTER),
        Feature::WebQuarterRight => web(Side::Right, QUARTER),
        Feature::WebHeelLeft => web(Side::Left, HEEL),
        Feature::WebHeelRight => web(Side::Right, HEEL),
        Feature::BranchLengthLeft => whole(Side::Left),
        Feature::BranchLengthRight => whole(Side::Right),
        Feature::BranchChordLeft => Some(vec![Point::ZERO, corners.left]),
        Feature::BranchChordRight => Some(vec![Point::ZERO, corners.right]),
        Feature::BranchDeviationMax => {
            let most = measures.deviation.first_most;
            Some(vec![on_branch(shoe, most.side, most.share)])
        }
        Feature::BranchDeviationRms => None,
        Feature::ToeRadius => Some(arc(measures)),
        Feature::BarWidth => bar(measures),
        Feature::BarBackStraightness | Feature::BarBackSquareness => {
            let Heels::Bar(_) = measures.heels else {
                return None;
            };
            let middle = corners.left.midpoint(corners.right);
            let ends = [corners.left, corners.right];
            Some(ends.map(|end| middle.lerp(end, MIDDLE)).to_vec())
        }
        Feature::HeelGap => match measures.heels {
            Heels::Open(_) => gap_line(shoe).map(Vec::from),
            Heels::Bar(_) => None,
        },
        _ => None,
    }
}

/// Across the shoe at its widest, half way between where it reaches furthest to either side.
fn across(shoe: &Shoe) -> Option<Vec<Point>> {
    let corners = || shoe.ring.sides().map(|(at, _)| at);
    let left = corners().min_by(|one, other| one.x.total_cmp(&other.x))?;
    let right = corners().max_by(|one, other| one.x.total_cmp(&other.x))?;
    let y = f64::midpoint(left.y, right.y);
    Some(vec![Point::new(left.x, y), Point::new(right.x, y)])
}

fn arc(measures: &Measures) -> Vec<Point> {
    let circle = measures.toe_circle;
    let half = measures.width / 2.0;
    // The ends of the part that the circle is fitted to, seen from its own centre.
    let end = (half * TOE.sin()).atan2(circle.centre.y - half + half * TOE.cos());
    let angle = |place: u32| end * (2.0 * f64::from(place) / f64::from(STEPS) - 1.0);
    let at = |angle: f64| circle.centre + Vec2::new(angle.sin(), -angle.cos()) * circle.radius;
    let arc = (0..=STEPS).map(|place| at(angle(place)));
    std::iter::once(circle.centre).chain(arc).collect()
}

fn bar(measures: &Measures) -> Option<Vec<Point>> {
    let Heels::Bar(bar) = measures.heels else {
        return None;
    };
    let on_axis = measures.shoe.ring.sides().filter_map(|(from, to)| {
        let is_met = (from.x > 0.0) != (to.x > 0.0);
        is_met.then(|| from.lerp(to, from.x / (from.x - to.x)).y)
    });
    let back = on_axis.max_by(f64::total_cmp)?;
    Some(vec![
        Point::new(0.0, back),
        Point::new(0.0, back - bar.width),
    ])
}
