use kurbo::Point;

use super::features::Measures;
use super::hidden::Hidden;
use super::steel::Followed;
use crate::piece::Feature;

/// An edge is doubtful where the mean over [`RUN`] stations of how likely it is falls below
/// this.
///
/// *Source:* told on rendered photographs of known shoes.
const DOUBTFUL: f64 = -2.3;
/// As many stations: 10 mm.
const RUN: usize = 20;
/// A measure is left blank where a doubtful edge lies so near to a place that it rests on, in mm:
/// half of [`RUN`] and a little.
const BESIDE: f64 = 7.0;
/// A doubtful edge lies this far off, as a standard deviation in mm.
///
/// *Source:* measured on rendered photographs of known shoes.
const OFF: f64 = 1.7;

/// Where outlines cannot be relied on.
#[derive(Debug, Clone, PartialEq)]
pub struct Doubt {
    /// Where the photo shows no plain edge.
    unclear: Vec<Point>,
    /// Where something is known to hide it.
    hidden: Vec<Point>,
    /// The share of the outlines that is unclear; what is known to be hidden does not count.
    pub share: f64,
}

impl Doubt {
    /// *Shape:* `hidden` has places of the outlines where something is known to hide the edge.
    pub fn of(outlines: &[Followed], hidden: Vec<Point>) -> Self {
        let unclear = outlines.iter().flat_map(doubtful);
        let unclear: Vec<Point> = unclear.filter(|at| !is_beside(&hidden, *at)).collect();
        let all: usize = outlines.iter().map(|outline| outline.line.len()).sum();
        Self {
            share: unclear.len() as f64 / all.max(1) as f64,
            unclear,
            hidden,
        }
    }

    /// All such places.
    pub fn places(&self) -> impl Iterator<Item = Point> {
        self.unclear.iter().chain(&self.hidden).copied()
    }

    /// How far off an edge may lie at a place for doubt alone, as a standard deviation in mm.
    pub fn off_at(&self, place: Point) -> f64 {
        if self.places().any(|at| is_beside(&[place], at)) {
            OFF
        } else {
            0.0
        }
    }

    /// Whether a measure rests on such a place.
    pub fn is_under(&self, measures: &Measures, feature: Feature) -> bool {
        let places = measures.rests_on(feature);
        self.places().any(|at| is_beside(&places, at))
    }
}

/// All places of the outlines where something hides the edge.
pub(super) fn places_under(hidden: &[Hidden], measures: &Measures) -> Vec<Point> {
    let each = hidden.iter().flat_map(|one| measures.under(*one));
    each.collect()
}

/// The places of an outline where its edge is doubtful.
fn doubtful(outline: &Followed) -> Vec<Point> {
    let mut round = outline.likely.clone();
    round.extend(outline.likely.iter().take(RUN - 1));
    let runs = round
        .windows(RUN)
        .map(|run| run.iter().sum::<f64>() / RUN as f64);
    let middles = outline.line.iter().cycle().skip(RUN / 2);
    let places = runs.zip(middles);
    places
        .filter(|(mean, _)| *mean < DOUBTFUL)
        .map(|(_, at)| *at)
        .collect()
}

/// Whether the edge is plain where it lies nearest to a place, so far off.
pub(super) fn is_plain_beside(unclear: &[Point], place: Point, way: f64) -> bool {
    let near = way.hypot(BESIDE);
    unclear.iter().all(|at| at.distance(place) >= near)
}

/// Whether one of some places lies so near to another one that it is off with that.
fn is_beside(places: &[Point], at: Point) -> bool {
    places.iter().any(|place| place.distance(at) < BESIDE)
}
