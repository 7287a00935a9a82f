use kurbo::{Point, Vec2};

use super::doubt::is_plain_beside;
use super::features::{Hole, Measures, Side, measure, measure_near};
use super::plane::{Level, Plane};
use super::shoe::Found;
use super::shown::{Dot, Measured, Shown, ShownHole};
use crate::piece::Feature;

/// A place in a picture where a nail hole is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HoleMark {
    /// Where, in pixels.
    pub at: Dot,
    /// Standard uncertainty of its centre each way, in mm.
    pub unsure: f64,
    /// What of that is its own: camera, thickness and the frame of the shoe left out.
    pub own: f64,
    /// Whether somebody put it there.
    pub by_hand: bool,
}

/// The holes that the gauge found, as they lie in the picture.
pub(super) fn found_holes(found: &Found, plane: &Plane) -> Vec<ShownHole> {
    let seen = found.holes.iter().filter_map(|one| {
        let mark = HoleMark {
            at: plane.pixel(one.hole.centre, Level::Hole)?,
            unsure: one.unsure,
            own: one.own,
            by_hand: false,
        };
        Some((one.hole, mark))
    });
    in_order(seen.collect(), &found.unclear_in_shoe())
}

/// Nail holes at these places of a picture, measured as those that the gauge finds; a place that
/// is not on the steel is left out.
pub fn holes_at(shown: &Shown, marks: &[HoleMark]) -> Vec<ShownHole> {
    let Some(measures) = measured_again(shown) else {
        return Vec::new();
    };
    let holes = marks.iter().filter_map(|mark| {
        let centre = shown.plane.on_face(mark.at, Level::Hole)?;
        Some((measures.hole(centre).ok()?, *mark))
    });
    let unclear = shown.unclear.iter();
    let unclear: Vec<Point> = unclear
        .filter_map(|at| shown.plane.place(*at, Level::Face))
        .collect();
    in_order(holes.collect(), &unclear)
}

/// The measures of a shoe by the outlines that are drawn over its picture.
fn measured_again(shown: &Shown) -> Option<Measures> {
    let on_face = |line: &Vec<Dot>| -> Option<Vec<Point>> {
        let places = line.iter();
        places
            .map(|at| shown.plane.on_face(*at, Level::Face))
            .collect()
    };
    let outer = on_face(&shown.outer)?;
    let inner: Option<Vec<Vec<Point>>> = shown.inner.iter().map(on_face).collect();
    let inner = inner?;
    let to_toe: Vec2 = -shown.plane.back();
    let rough = measure(&outer, &inner, Some(to_toe)).ok()?;
    // The axis leaves out what the first one left out.
    measure_near(&outer, &inner, &rough.frame, &on_face(&shown.unclear)?).ok()
}

/// The holes on the left from the toe back, then those on the right, numbered.
///
/// *Shape:* `unclear` has places of edges that cannot be relied on, in the shoe's own frame.
fn in_order(mut holes: Vec<(Hole, HoleMark)>, unclear: &[Point]) -> Vec<ShownHole> {
    holes.sort_by(|(one, _), (other, _)| one.along.total_cmp(&other.along));
    let of_side = |(side, word): (Side, &'static str)| {
        let here = || holes.iter().filter(move |(hole, _)| hole.side == side);
        let next = here().skip(1).map(Some).chain([None]);
        let numbered = (1..).zip(here().zip(next));
        let shown = numbered.map(|(number, ((hole, mark), next))| ShownHole {
            side: word.to_owned(),
            number,
            at: near(mark.at),
            place: near((hole.centre.x, hole.centre.y)),
            to_edge: is_plain_beside(unclear, hole.centre, hole.to_edge).then_some(hole.to_edge),
            along: hole.along,
            to_next: next.map(|(next, _)| hole.centre.distance(next.centre)),
            unsure: mark.unsure,
            own: mark.own,
            by_hand: mark.by_hand,
        });
        shown.collect::<Vec<ShownHole>>()
    };
    let sides = [(Side::Left, "left"), (Side::Right, "right")];
    sides.into_iter().flat_map(of_side).collect()
}

/// How far all insets of holes are off together, in mm.
///
/// *Source:* told on rendered photographs of known shoes.
const ALL_INSETS: f64 = 0.12;
/// What differs from hole to hole is this share of a hole's own uncertainty, as light and height
/// shift neighbours alike; told as above.
const FROM_HOLE_TO_HOLE: f64 = 0.5;

/// What is measured of nail holes, in the order of [`Feature::ALL`].
pub fn hole_measures(holes: &[ShownHole]) -> Vec<Measured> {
    let insets = holes.iter().filter_map(|hole| {
        Some(Measured {
            shared: ALL_INSETS,
            by_hand: hole.by_hand,
            ..Measured::of(Feature::HoleInset, hole.to_edge?, hole.own, Vec::new())
        })
    });
    let next = holes.iter().skip(1);
    let spacings = holes.iter().zip(next).filter_map(|(one, other)| {
        let own = FROM_HOLE_TO_HOLE * one.own.hypot(other.own);
        let line = vec![one.at, other.at];
        Some(Measured {
            by_hand: one.by_hand || other.by_hand,
            ..Measured::of(Feature::HoleSpacing, one.to_next?, own, line)
        })
    });
    let sides = [
        ("left", Feature::HeelHoleLeft),
        ("right", Feature::HeelHoleRight),
    ];
    let last = sides.into_iter().filter_map(|(side, feature)| {
        let hole = holes.iter().rfind(|hole| hole.side == side)?;
        Some(Measured {
            by_hand: hole.by_hand,
            ..Measured::of(feature, hole.along, hole.unsure, Vec::new())
        })
    });
    insets.chain(spacings).chain(last).collect()
}

/// To a hundredth of a pixel or a millimetre, which is finer than anything is drawn.
pub(super) fn near((x, y): Dot) -> Dot {
    let near = |value: f64| (value * 100.0).round() / 100.0;
    (near(x), near(y))
}
