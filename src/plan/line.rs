//! The line along the middle of the web, from the toe back, and how much bar lies in it.

use kurbo::{Affine, BezPath, ParamCurve as _, ParamCurveDeriv as _, PathSeg, Point, Vec2};

use crate::piece::{BarShape, Branch, Edge, MadeShoe, PieceSpecification, plan_area};

/// Stations for each curve of an edge: the chords of a shoe's line fall short by less than
/// 0.01 mm.
const FINE: u32 = 48;

/// A place of the line, in mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Station {
    /// Where the middle of the web is.
    pub middle: Point,
    /// Length along the outer edge from the middle of the toe.
    pub edge: f64,
    /// Length along the line from the middle of the toe.
    pub along: f64,
    /// Width of the steel.
    pub web: f64,
}

/// The line of one branch, in mm.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Line {
    /// From the toe to where bar or heel begins.
    pub stations: Vec<Station>,
    /// What the end of a free heel adds behind its edges, or lacks where it is tapered: its
    /// metal as a length of the web there, by the area of the plan.
    pub end: f64,
    /// From the end of the branch along the middle of the bar to its middle; 0 without one.
    pub half_bar: f64,
}

/// Both lines.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Lines {
    pub outer: Line,
    pub inner: Line,
}

impl Lines {
    pub fn of(piece: &PieceSpecification, shoe: &MadeShoe) -> Self {
        let right = Line::of(piece, shoe, &shoe.right, &shoe.right.path);
        let left = Line::of(piece, shoe, &shoe.left, &(Affine::FLIP_X * &shoe.left.path));
        let (mut outer, mut inner) = if shoe.outer_is_right {
            (right, left)
        } else {
            (left, right)
        };
        if piece.bar.is_none() {
            let strips = outer.sum_to(f64::MAX, |web| web) + inner.sum_to(f64::MAX, |web| web);
            let rest = (plan_area(shoe) - strips) / 2.0;
            outer.end = rest / outer.last_web();
            inner.end = rest / inner.last_web();
        }
        Self { outer, inner }
    }

    pub fn branch(&self, branch: Branch) -> &Line {
        match branch {
            Branch::Outer => &self.outer,
            Branch::Inner => &self.inner,
        }
    }

    pub fn both(&self) -> [&Line; 2] {
        [&self.outer, &self.inner]
    }
}

impl Line {
    /// The line inside an edge, whose path is drawn on the right.
    fn of(piece: &PieceSpecification, shoe: &MadeShoe, edge: &Edge, path: &BezPath) -> Self {
        let all = stations(path, |along| shoe.web_at(edge, along));
        let stop = match &piece.bar {
            None => Stop::End,
            Some(bar) if bar.shape == BarShape::Egg => Stop::Heel(edge.heel()),
            Some(bar) => {
                let back = kurbo::Shape::bounding_box(&shoe.outline).y1;
                Stop::BarMiddle(back - bar.width.to_mm() / 2.0)
            }
        };
        let (stations, half_bar) = stop.at(all);
        Self {
            stations,
            end: 0.0,
            half_bar,
        }
    }

    /// Width of the web at the heel; never nothing.
    fn last_web(&self) -> f64 {
        let last = self.stations.last();
        last.map_or(1.0, |last| last.web.max(1e-3))
    }

    /// Length of the branch along the line, in mm.
    pub fn length(&self) -> f64 {
        self.stations.last().map_or(0.0, |last| last.along)
    }

    /// The integral of `of` the web over the line, up to a length along the outer edge.
    pub fn sum_to(&self, edge: f64, of: impl Fn(f64) -> f64) -> f64 {
        let pairs = self.stations.iter().zip(self.stations.iter().skip(1));
        let mut sum = 0.0;
        for (from, to) in pairs.take_while(|(from, _)| from.edge < edge) {
            let whole = (to.edge - from.edge).max(f64::MIN_POSITIVE);
            let part = ((edge - from.edge) / whole).min(1.0);
            let web = from.web + (to.web - from.web) * part;
            sum += (to.along - from.along) * part * (of(from.web) + of(web)) / 2.0;
        }
        sum
    }
}

/// Where the line of a branch ends.
enum Stop {
    /// At the end of its edge.
    End,
    /// At so much along the edge, from where the rest is bar.
    Heel(f64),
    /// Where it meets the middle of a bar, so far behind the toe.
    BarMiddle(f64),
}

impl Stop {
    /// The stations of the branch, and the length of the half-bar behind them.
    fn at(&self, all: Vec<Station>) -> (Vec<Station>, f64) {
        let is_before = |station: &Station| match self {
            Self::End => true,
            Self::Heel(heel) => station.edge < heel - 1e-6,
            Self::BarMiddle(y) => station.middle.y < *y,
        };
        let count = all.iter().take_while(|station| is_before(station)).count();
        let rest = all.get(count).copied();
        let whole = all.last().map_or(0.0, |last| last.along);
        let mut stations: Vec<Station> = all.into_iter().take(count).collect();
        let (Some(from), Some(to)) = (stations.last().copied(), rest) else {
            let across = stations.last().map_or(0.0, |last| last.middle.x.abs());
            let half_bar = if matches!(self, Self::BarMiddle(_)) {
                across
            } else {
                0.0
            };
            return (stations, half_bar);
        };
        let part = match self {
            Self::End => 1.0,
            Self::Heel(heel) => (heel - from.edge) / (to.edge - from.edge),
            Self::BarMiddle(y) => (y - from.middle.y) / (to.middle.y - from.middle.y),
        };
        let last = between(from, to, part.clamp(0.0, 1.0));
        stations.push(last);
        let half_bar = match self {
            Self::End => 0.0,
            Self::Heel(_) => whole - last.along,
            Self::BarMiddle(_) => last.middle.x.abs(),
        };
        (stations, half_bar)
    }
}

fn between(from: Station, to: Station, part: f64) -> Station {
    let mix = |one: f64, other: f64| one + (other - one) * part;
    Station {
        middle: from.middle.lerp(to.middle, part),
        edge: mix(from.edge, to.edge),
        along: mix(from.along, to.along),
        web: mix(from.web, to.web),
    }
}

/// Stations along the edge of a right branch.
fn stations(path: &BezPath, web_at: impl Fn(f64) -> f64) -> Vec<Station> {
    let mut found: Vec<Station> = Vec::new();
    let mut before: Option<(Point, Station)> = None;
    for seg in path.segments() {
        let first = u32::from(before.is_some());
        for step in first..=FINE {
            let t = f64::from(step) / f64::from(FINE);
            let point = seg.eval(t);
            let edge = before.map_or(0.0, |(last, station)| station.edge + (point - last).hypot());
            let web = web_at(edge);
            let middle = point + inward(seg, t) * (web / 2.0);
            let along = before.map_or(0.0, |(_, station)| {
                station.along + (middle - station.middle).hypot()
            });
            let station = Station {
                middle,
                edge,
                along,
                web,
            };
            before = Some((point, station));
            found.push(station);
        }
    }
    found
}

/// Into the steel, of length 1.
fn inward(seg: PathSeg, t: f64) -> Vec2 {
    let way = match seg {
        PathSeg::Line(line) => line.p1 - line.p0,
        PathSeg::Quad(quad) => quad.deriv().eval(t).to_vec2(),
        PathSeg::Cubic(cubic) => cubic.deriv().eval(t).to_vec2(),
    };
    if way.hypot() > 0.0 {
        let way = way.normalize();
        Vec2::new(-way.y, way.x)
    } else {
        Vec2::new(-1.0, 0.0)
    }
}
