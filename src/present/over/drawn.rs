use kurbo::Rect;

use super::outlined::Outlined;
use crate::gauge::over::{LaidOver, Off};
use crate::present::photo::{Look, StoodOff, Stretch, path, stretches};

/// Up to this a place counts as lying on the other shoe, and up to twice this as near it, in mm.
const NEAR: f64 = 1.0;
/// A tick stands at every so many places.
const TICK_EACH: usize = 4;
/// A tick is so many times as long as what it tells of, so that it is seen, up to a longest one.
const MAGNIFIED: f64 = 4.0;
const LONGEST: f64 = 12.0;
/// Digits after the point of a place in mm.
const DIGITS: usize = 2;
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
    let rings = rings.map(|ring| format!("{}Z", path(ring.iter().map(|at| (at.x, at.y)), DIGITS)));
    OverDrawn {
        view_box: view_box(under, laid),
        under: rings.collect(),
        stretches: laid.edges.iter().flat_map(|edge| stood_off(edge)).collect(),
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

/// An edge by how far it lies off.
fn stood_off(edge: &[Off]) -> Vec<Stretch> {
    let places = edge.iter().map(|off| StoodOff {
        at: off.at.into(),
        by: off.by,
        tick: (off.at + off.away * (off.by.abs() * MAGNIFIED).min(LONGEST)).into(),
    });
    let look = Look {
        near: NEAR,
        tick_each: TICK_EACH,
        is_closed: true,
        digits: DIGITS,
    };
    stretches(&places.collect::<Vec<StoodOff>>(), look)
}
