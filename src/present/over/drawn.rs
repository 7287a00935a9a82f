use kurbo::{Point, Rect};

use super::outlined::Outlined;
use crate::gauge::over::{LaidOver, Off};
use crate::present::photo::Stretch;

/// Up to this a place counts as lying on the other shoe, and up to twice this as near it, in mm.
const NEAR: f64 = 1.0;
/// A tick stands at every so many places.
const TICK_EACH: usize = 4;
/// A tick is so many times as long as what it tells of, so that it is seen, up to a longest one.
const MAGNIFIED: f64 = 4.0;
const LONGEST: f64 = 12.0;
/// So much is left round the shoes, in mm.
const AROUND: f64 = 14.0;

/// Two shoes over each other, in mm.
#[derive(Debug, Clone, PartialEq)]
pub struct OverDrawn {
    /// What is shown, as SVG's `viewBox`.
    pub view_box: String,
    /// The edges of the one below, in SVG's notation.
    pub under: String,
    /// The edges of the one that is laid over it, by how far they lie off.
    pub stretches: Vec<Stretch>,
}

/// Draws a shoe that is laid over another.
pub(super) fn over_drawn(under: &Outlined, laid: &LaidOver) -> OverDrawn {
    let rings = std::iter::once(&under.edges.outer).chain(&under.edges.inner);
    let rings = rings.map(|ring| format!("{}Z", path(ring.iter().copied())));
    OverDrawn {
        view_box: view_box(under, laid),
        under: rings.collect(),
        stretches: laid.edges.iter().flat_map(|edge| stretches(edge)).collect(),
    }
}

fn view_box(under: &Outlined, laid: &LaidOver) -> String {
    let places = laid.places().map(|off| off.at);
    let all = places.chain(under.edges.outer.iter().copied());
    let around = all
        .map(|at| Rect::from_points(at, at))
        .reduce(|all, one| all.union(one))
        .unwrap_or_default()
        .inflate(AROUND, AROUND);
    let (x, y) = (around.x0, around.y0);
    format!("{x:.1} {y:.1} {:.1} {:.1}", around.width(), around.height())
}

/// How a place lies that is so many mm off.
fn class(by: f64) -> &'static str {
    if by.abs() <= NEAR {
        "on"
    } else if by.abs() <= 2.0 * NEAR {
        "near"
    } else {
        "off"
    }
}

/// An edge in runs of places that lie alike far off.
fn stretches(edge: &[Off]) -> Vec<Stretch> {
    let runs = edge.chunk_by(|one, other| class(one.by) == class(other.by));
    let mut begins = 0;
    runs.map(|run| {
        let from = begins;
        begins += run.len();
        // A run goes on to where the next one begins, so that no gap is left.
        let line = edge.iter().cycle().skip(from).take(run.len() + 1);
        let ticks = (from..).zip(run).filter(|(at, _)| at % TICK_EACH == 0);
        let ticks = ticks.map(|(_, off)| {
            let end = off.at + off.away * (off.by.abs() * MAGNIFIED).min(LONGEST);
            path([off.at, end].into_iter())
        });
        Stretch {
            name: run.first().map_or("on", |off| class(off.by)),
            path: path(line.map(|off| off.at)),
            ticks: ticks.collect(),
        }
    })
    .collect()
}

/// A path through places, in SVG's notation, to a hundredth of a millimetre.
fn path(places: impl Iterator<Item = Point>) -> String {
    let places = places.enumerate().map(|(place, at)| {
        let letter = if place == 0 { 'M' } else { 'L' };
        format!("{letter}{:.2} {:.2}", at.x, at.y)
    });
    places.collect()
}
