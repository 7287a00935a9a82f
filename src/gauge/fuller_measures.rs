//! What is measured of fullers.

use super::features::{Both, Side};
use super::nail_hole::NailHole;
use super::plane::{Level, Plane};
use super::shoe::Found;
use super::shown::{Dot, Measured};
use crate::piece::Feature;

/// How far a groove's middle is off at one place by itself, and everywhere together, in mm.
///
/// *Source:* told on rendered photographs of known shoes.
const GROOVE: (f64, f64) = (0.15, 0.12);
/// A groove's width, in mm; told as above.
const WIDTH: f64 = 0.35;
/// Where a groove ends, as a share of its branch; told as above.
const END: f64 = 0.005;

/// What is plain of the fullers, in the order of [`Feature::ALL`].
pub(super) fn fuller_measures(found: &Found, plane: &Plane) -> Vec<Measured> {
    let (own, shared) = GROOVE;
    let is_plain = |hole: &&NailHole| found.has_plain_edge(hole.hole.centre, hole.groove);
    let insets = found.holes.iter().filter(is_plain).map(|hole| Measured {
        shared,
        ..Measured::of(Feature::FullerInset, hole.groove, own, Vec::new())
    });
    insets
        .chain(widths(found))
        .chain(ends(found, plane))
        .collect()
}

fn widths(found: &Found) -> impl Iterator<Item = Measured> {
    let both = [found.fuller.left, found.fuller.right].into_iter();
    both.flatten()
        .map(|fuller| Measured::of(Feature::FullerWidth, fuller.width, WIDTH, Vec::new()))
}

fn ends(found: &Found, plane: &Plane) -> impl Iterator<Item = Measured> {
    let word = Both {
        left: Feature::FullerEndLeft,
        right: Feature::FullerEndRight,
    };
    let frame = found.measures.frame;
    Side::BOTH.into_iter().filter_map(move |side| {
        let share = found.fuller.of(side).and_then(|fuller| fuller.end)?;
        let long = *found.measures.branches.of(side);
        let across = found.measures.across(side, share).into_iter();
        let line: Vec<Dot> = across
            .filter_map(|at| plane.pixel(frame.into_shoe(at), Level::Face))
            .collect();
        Some(Measured::of(*word.of(side), share * long, END * long, line))
    })
}
