//! What of a shoe hangs over the edge of its sheet: there a board ends, and no paper shows where
//! the steel does. Clips need it, and what lies there is never measured.

use kurbo::{CubicBez, ParamCurve as _, ParamCurveArclen as _, Point, Vec2};
use nalgebra::Point3;
use num_traits::AsPrimitive;

use super::polygon::{hull, sides};
use super::steel::Followed;
use super::view::View;

/// So near to the sheet's edge, in mm, an outline is led over it: beside the steel its wall and
/// paper are needed to tell where it ends.
const BESIDE: f64 = 2.5;
/// An outline that comes so near to it, in mm, may be the sheet's edge itself.
const ON_EDGE: f64 = 1.0;
/// The direction of an outline that is led over the edge is told by this much of it, in mm.
const DIRECTION: f64 = 8.0;
/// An outline is led over the edge for so long at most, in mm: 14 mm of a narrow toe.
const MOST: f64 = 120.0;
/// The directions in which it leaves and comes back differ from those of an arc by less than this,
/// in degrees.
///
/// *Source:* told on rendered photographs of known shoes, as is the next.
const MOST_UNEVEN: f64 = 20.0;
/// An outline that was led over the edge may lie off by this, as a standard deviation in mm: the
/// measures that rest on it are left blank, and of the others it moves the mirror axis.
const OFF: f64 = 1.0;
/// How exactly a length along a curve is told, in mm.
const EXACT: f64 = 1e-3;

/// The sheet as it is seen on the plane of the face that is measured.
#[derive(Debug, Clone, PartialEq)]
pub struct Overhang {
    ring: Vec<Point>,
}

/// The part of a closed line that lies beyond the sheet or near its edge: its first place, and
/// how many there are.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
struct Run {
    first: usize,
    count: usize,
}

impl Overhang {
    /// *Shape:* `corners` of the sheet, in mm on it.
    pub fn of(view: &View<'_>, corners: &[Point]) -> Self {
        let seen = corners.iter().filter_map(|at| {
            let pixel = view.camera.project(Point3::new(at.x, at.y, 0.0))?;
            view.camera.meets(pixel, view.height)
        });
        Self {
            ring: hull(&seen.collect::<Vec<Point>>()),
        }
    }

    /// Its corners.
    pub fn ring(&self) -> &[Point] {
        &self.ring
    }

    /// Of a line those places that lie beyond the sheet, or too near its edge to be told.
    pub fn beyond(&self, line: &[Point]) -> Vec<Point> {
        let near = line.iter().filter(|at| self.depth(**at) < BESIDE);
        near.copied().collect()
    }

    /// Whether any of a line lies on the sheet's edge or beyond: what reaches over it may be cut
    /// off there.
    pub fn is_met_by(&self, line: &[Point]) -> bool {
        line.iter().any(|at| self.depth(*at) < ON_EDGE)
    }

    /// Whether a closed line can be led over the edge: it crosses it once, there and back.
    pub fn can_lead(&self, line: &[Point]) -> bool {
        let share = |run: Run| run.count as f64 / line.len().max(1) as f64;
        let is_short = |run: Run| share(run) * round(line) < MOST;
        let bridge = self.bridge(line);
        bridge.is_some_and(|(run, curve)| is_short(run) && is_even(curve))
    }

    /// A closed line whose part beyond the sheet is a smooth curve between both ends of the rest.
    pub fn led(&self, mut line: Vec<Point>) -> Vec<Point> {
        if let Some((run, curve)) = self.bridge(&line) {
            replace(&mut line, run, &along(curve, run.count));
        }
        line
    }

    /// The same of an edge that was followed.
    pub fn led_edge(&self, edge: Followed) -> Followed {
        let Some((run, curve)) = self.bridge(&edge.line) else {
            return edge;
        };
        let Followed {
            mut line,
            outward,
            mut unsure,
            likely,
        } = edge;
        replace(&mut line, run, &along(curve, run.count));
        replace(&mut unsure, run, &vec![OFF; run.count]);
        Followed {
            line,
            outward,
            unsure,
            likely,
        }
    }

    /// How far within the sheet a place lies, in mm; below zero outside.
    fn depth(&self, at: Point) -> f64 {
        let depths = sides(&self.ring).map(|(from, to)| (to - from).normalize().cross(at - from));
        depths.fold(f64::INFINITY, f64::min)
    }

    /// `None` where there is none, or several.
    fn run(&self, line: &[Point]) -> Option<Run> {
        let near: Vec<bool> = line.iter().map(|at| self.depth(*at) < BESIDE).collect();
        let before = near.iter().cycle().skip(near.len().saturating_sub(1));
        let begins = before.zip(&near).enumerate();
        let mut begins = begins.filter(|(_, (before, is))| **is && !**before);
        let (first, _) = begins.next()?;
        begins.next().is_none().then(|| Run {
            first,
            count: near.iter().filter(|is| **is).count(),
        })
    }

    /// What takes the place of the part beyond the sheet.
    fn bridge(&self, line: &[Point]) -> Option<(Run, CubicBez)> {
        let run = self.run(line)?;
        let all = line.len();
        let lag = DIRECTION * all as f64 / round(line);
        // No further back than there is a line.
        let lag: usize = lag.round().clamp(1.0, (all / 3).max(1) as f64).as_();
        let at = |place: usize| line.get(place % all).copied();
        let before = |by: usize| at((run.first + 2 * all).checked_sub(by)?);
        let after = |by: usize| at(run.first + run.count + by);
        let leaves = (
            before(1)?,
            way(before(1)?, before(1 + lag)?, before(1 + 2 * lag)?),
        );
        let comes = (after(0)?, way(after(0)?, after(lag)?, after(2 * lag)?));
        Some((run, arc(leaves, comes)))
    }
}

/// The direction in which a line leaves its end, by the two places before that: of a parabola
/// through all three.
fn way(end: Point, before: Point, further: Point) -> Vec2 {
    (end - before) * 4.0 - (end - further)
}

/// The curve between two ends in their directions that of a circle is its arc, very nearly.
fn arc((from, leaves): (Point, Vec2), (to, comes): (Point, Vec2)) -> CubicBez {
    let turn = leaves.normalize().dot(-comes.normalize()).clamp(-1.0, 1.0);
    let quarter = turn.acos() / 4.0;
    let handle = (to - from).hypot() / (3.0 * quarter.cos().powi(2));
    CubicBez::new(
        from,
        from + leaves.normalize() * handle,
        to + comes.normalize() * handle,
        to,
    )
}

/// Whether a curve leaves and comes alike, as an arc does: no corner lies at either end.
fn is_even(curve: CubicBez) -> bool {
    let chord = curve.p3 - curve.p0;
    let turn = |from: Vec2, to: Vec2| from.cross(to).atan2(from.dot(to));
    let leaves = turn(curve.p1 - curve.p0, chord);
    let comes = turn(chord, curve.p3 - curve.p2);
    (leaves - comes).abs().to_degrees() < MOST_UNEVEN
}

/// So many places evenly along a curve, without its ends.
fn along(curve: CubicBez, count: usize) -> Vec<Point> {
    let long = curve.arclen(EXACT);
    let share = |place: usize| (place + 1) as f64 / (count + 1) as f64;
    let places = (0..count).map(|place| curve.inv_arclen(share(place) * long, EXACT));
    places.map(|place| curve.eval(place)).collect()
}

/// How long a closed line is.
fn round(line: &[Point]) -> f64 {
    sides(line).map(|(from, to)| from.distance(to)).sum()
}

fn replace<T: Copy>(all: &mut [T], run: Run, by: &[T]) {
    let count = all.len().max(1);
    for (place, value) in by.iter().enumerate() {
        if let Some(at) = all.get_mut((run.first + place) % count) {
            *at = *value;
        }
    }
}
