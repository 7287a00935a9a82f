use super::definitions::number;
use super::grouped::{Group, grouped};
use super::stretch::{Look, StoodOff, Stretch, path, stretches};
use crate::gauge::{Dot, Shown};
use crate::piece::Feature;

/// Up to this a branch counts as lying on the mirror image of the other, and up to twice this
/// as near it, in mm; common practice, no source.
const NEAR: f64 = 0.75;
/// A tick stands at every so many places of the outline.
const TICK_EACH: usize = 5;
/// A tick is so many times as long as what it tells of, so that it is seen.
const MAGNIFIED: f64 = 8.0;
/// Digits after the point of a place in pixels.
const DIGITS: usize = 1;
/// A photo is so many times as long as a number is high.
const LETTERS: f64 = 60.0;

/// What is drawn over a photo, in its pixels.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Overlay {
    /// What is shown, as SVG's `viewBox`.
    pub view_box: String,
    /// Height of a number's letters, in pixels of the photo.
    pub letters: f64,
    /// Lines that are always there.
    pub layers: Vec<Layer>,
    /// The outline of the branches, by how far it stands off the mirror image of the other one.
    pub stretches: Vec<Stretch>,
    /// The nail holes.
    pub holes: Vec<Dot>,
    /// Of each measure in order, where it is measured.
    pub measures: Vec<Layer>,
}

/// A line over the photo.
#[derive(Debug, Clone, PartialEq)]
pub struct Layer {
    /// What it is, as the style sheet calls it.
    pub name: &'static str,
    /// The line in SVG's notation.
    pub path: String,
    /// Its number and where that stands, in pixels, where it has one.
    pub number: Option<(usize, Dot)>,
}

/// What is drawn over the photo of a measured shoe.
pub fn overlay(shown: &Shown) -> Overlay {
    let (columns, rows) = shown.size;
    let open = |name, line: &[Dot]| Layer {
        name,
        path: path(line.iter().copied(), DIGITS),
        number: None,
    };
    let closed = |name, line: &[Dot]| {
        let mut layer = open(name, line);
        // A scan has no sheet, and nothing to be closed.
        if !line.is_empty() {
            layer.path.push('Z');
        }
        layer
    };
    let mut layers = vec![
        closed("sheet-edge", &shown.sheet),
        closed("mirror-image", &shown.mirrored),
        closed("steel-edge", &shown.outer),
    ];
    layers.extend(shown.inner.iter().map(|inner| closed("steel-edge", inner)));
    layers.extend(shown.fuller.iter().map(|end| open("fuller-end", end)));
    layers.push(open("axis", &shown.axis));
    Overlay {
        // A pixel's middle is at a whole number.
        view_box: format!("-0.5 -0.5 {columns} {rows}"),
        letters: columns.max(rows) as f64 / LETTERS,
        layers,
        stretches: stood_off(shown),
        holes: shown.holes.iter().map(|hole| hole.at).collect(),
        measures: grouped(shown).map(measure).collect(),
    }
}

/// The outline of the branches by how far it stands off the mirror image of the other one.
fn stood_off(shown: &Shown) -> Vec<Stretch> {
    let pixels = pixels_per_mm(shown);
    let middle = middle(&shown.outer);
    let places = shown.apart.iter().enumerate();
    let places = places.map(|(place, (at, by))| {
        let (x, y) = outward(shown, place, middle);
        let long = by * pixels * MAGNIFIED;
        StoodOff {
            at: *at,
            by: *by,
            tick: (at.0 + x * long, at.1 + y * long),
        }
    });
    let look = Look {
        near: NEAR,
        tick_each: TICK_EACH,
        is_closed: false,
        digits: DIGITS,
    };
    stretches(&places.collect::<Vec<StoodOff>>(), look)
}

/// Square to the outline there, away from the middle of the shoe.
fn outward(shown: &Shown, place: usize, middle: Dot) -> Dot {
    let at = |place: usize| shown.apart.get(place).map(|(at, _)| *at);
    let here = at(place);
    let before = at(place.saturating_sub(1)).or(here);
    let after = at(place + 1).or(here);
    let (Some(here), Some(before), Some(after)) = (here, before, after) else {
        return (0.0, 0.0);
    };
    let (x, y) = (after.1 - before.1, before.0 - after.0);
    let long = x.hypot(y).max(f64::MIN_POSITIVE);
    let is_outward = x * (here.0 - middle.0) + y * (here.1 - middle.1) > 0.0;
    let sign = if is_outward { 1.0 } else { -1.0 };
    (sign * x / long, sign * y / long)
}

/// The middle of some dots.
fn middle(dots: &[Dot]) -> Dot {
    let count = dots.len().max(1) as f64;
    let sum = dots
        .iter()
        .fold((0.0, 0.0), |sum, at| (sum.0 + at.0, sum.1 + at.1));
    (sum.0 / count, sum.1 / count)
}

/// Pixels of a millimetre, by the width of the shoe.
fn pixels_per_mm(shown: &Shown) -> f64 {
    let width = shown
        .measured
        .iter()
        .find(|one| one.feature == Feature::OverallWidth.word());
    let ends = width.and_then(|one| Some((one.line.first()?, one.line.last()?, one.value)));
    ends.map_or(1.0, |(from, to, mm)| {
        (to.0 - from.0).hypot(to.1 - from.1) / mm
    })
}

fn measure(Group { feature, each }: Group<'_>) -> Layer {
    let line = each.first().map_or(&[][..], |one| &one.line);
    let along = beside_others(feature);
    let at = match line {
        [] => None,
        [from, to] => Some((
            from.0 + along * (to.0 - from.0),
            from.1 + along * (to.1 - from.1),
        )),
        more => more.get(more.len() / 2).copied(),
    };
    Layer {
        name: if feature.is_many() {
            "measure many"
        } else {
            "measure"
        },
        path: each
            .iter()
            .filter(|one| one.line.len() > 1)
            .map(|one| path(one.line.iter().copied(), DIGITS))
            .collect(),
        number: Some(number(feature)).zip(at),
    }
}

/// How far along its line a number stands, so that lines that cross or share a place do not bear
/// theirs on top of each other.
fn beside_others(feature: Feature) -> f64 {
    match feature {
        Feature::OverallWidth | Feature::BarBackStraightness => 0.3,
        Feature::OverallLength => 0.6,
        Feature::BarBackSquareness => 0.7,
        _ => 0.5,
    }
}
