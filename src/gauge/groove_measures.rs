//! What is measured of fullers and nail holes.

use kurbo::Point;

use super::features::{Both, Side};
use super::nail_hole::NailHole;
use super::shoe::Found;
use crate::piece::Feature;

/// One value in mm, with the standard uncertainty of what is its own and what it is off by with
/// one of what all of its kind share.
#[derive(Debug, Clone, PartialEq)]
pub struct Told {
    /// What it is.
    pub feature: Feature,
    /// Its value.
    pub value: f64,
    /// Its own part.
    pub own: f64,
    /// The shared part.
    pub shared: f64,
    /// Where it is measured, on the plane of the ground face.
    pub line: Vec<Point>,
}

/// How far all insets of holes, and all of a groove's middle, are off together; and a groove's
/// middle at one place by itself, in mm.
///
/// *Source:* told on rendered photographs of known shoes.
const ALL_INSETS: f64 = 0.12;
const GROOVE: f64 = 0.15;
/// A groove's width, in mm; told as above.
const WIDTH: f64 = 0.35;
/// Where a groove ends, as a share of its branch; told as above.
const END: f64 = 0.005;

/// What is plain of fullers and holes, in the order of [`Feature::ALL`].
pub fn groove_measures(found: &Found) -> Vec<Told> {
    let mut all: Vec<Told> = found.holes.iter().map(groove_inset).collect();
    all.extend(widths(found));
    all.extend(ends(found));
    all.extend(found.holes.iter().map(|hole| hole_inset(found, hole)));
    let both = Side::BOTH.into_iter();
    all.extend(both.clone().flat_map(|side| spacings(found, side)));
    all.extend(both.filter_map(|side| heel_hole(found, side)));
    all
}

fn groove_inset(hole: &NailHole) -> Told {
    Told {
        feature: Feature::FullerInset,
        value: hole.groove,
        own: GROOVE,
        shared: ALL_INSETS,
        line: Vec::new(),
    }
}

fn hole_inset(found: &Found, hole: &NailHole) -> Told {
    let edge = found.measures.edge_at(hole.hole.side, hole.hole.along);
    Told {
        feature: Feature::HoleInset,
        value: hole.hole.to_edge,
        own: hole.own,
        shared: ALL_INSETS,
        line: vec![edge, found.measures.frame.into_input(hole.hole.centre)],
    }
}

fn widths(found: &Found) -> Vec<Told> {
    let both = [found.fuller.left, found.fuller.right];
    let each = both.into_iter().flatten().map(|fuller| Told {
        feature: Feature::FullerWidth,
        value: fuller.width,
        own: WIDTH,
        shared: 0.0,
        line: Vec::new(),
    });
    each.collect()
}

fn ends(found: &Found) -> Vec<Told> {
    let word = Both {
        left: Feature::FullerEndLeft,
        right: Feature::FullerEndRight,
    };
    let each = Side::BOTH.into_iter().filter_map(|side| {
        let share = found.fuller.of(side).and_then(|fuller| fuller.end)?;
        let long = *found.measures.branches.of(side);
        Some(Told {
            feature: *word.of(side),
            value: share * long,
            own: END * long,
            shared: 0.0,
            line: found.measures.across(side, share),
        })
    });
    each.collect()
}

fn of_side(found: &Found, side: Side) -> impl Iterator<Item = &NailHole> {
    found
        .holes
        .iter()
        .filter(move |hole| hole.hole.side == side)
}

fn spacings(found: &Found, side: Side) -> Vec<Told> {
    let next = of_side(found, side).skip(1);
    let pairs = of_side(found, side).zip(next).map(|(one, other)| Told {
        feature: Feature::HoleSpacing,
        value: one.hole.centre.distance(other.hole.centre),
        own: one.own.hypot(other.own),
        shared: 0.0,
        line: [one, other]
            .map(|hole| found.measures.frame.into_input(hole.hole.centre))
            .to_vec(),
    });
    pairs.collect()
}

fn heel_hole(found: &Found, side: Side) -> Option<Told> {
    let last = of_side(found, side).last()?;
    let feature = match side {
        Side::Left => Feature::HeelHoleLeft,
        Side::Right => Feature::HeelHoleRight,
    };
    Some(Told {
        feature,
        value: last.hole.along,
        own: last.unsure,
        shared: 0.0,
        line: Vec::new(),
    })
}
