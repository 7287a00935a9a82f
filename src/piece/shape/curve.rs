//! Outer edge and inner edge of one branch, drawn on the right of the middle line.

use std::f64::consts::PI;

use super::edge::{Edge, derivative};
use kurbo::{BezPath, ParamCurve as _, PathSeg, Point, Vec2};

/// How far the toe arc runs on each side of the middle line, in radians: 35 degrees, as
/// a toe radius is measured.
const ARC: f64 = 35.0 * PI / 180.0;
/// Points for each segment where the inner edge is worked out.
const FINE: u32 = 16;
/// Steps of bisection: a millionth of a millimetre of any shoe.
const HALVINGS: u32 = 28;

/// The toe: half the width of its straight part, and its radius.
#[derive(Debug, Clone, Copy)]
pub(super) struct Front {
    pub flat: f64,
    pub radius: f64,
}

/// Least and most radius beside a half width.
pub(super) fn radii(room: f64) -> (f64, f64) {
    (0.35 * room, 1.6 * room)
}

/// How the edge ends behind the greatest width.
#[derive(Debug, Clone, Copy)]
pub(super) enum Tail {
    /// At a heel corner.
    Heel(Point),
    /// Round to the middle line at this distance from the toe; the fullness is that of an
    /// ellipse at 0.5523.
    Round { length: f64, fullness: f64 },
}

/// Web along a branch, in mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Webs {
    pub toe: f64,
    pub quarter: f64,
    pub heel: f64,
    /// What it comes to behind the heel, at the middle line of an egg bar.
    pub back: f64,
}

impl Webs {
    /// At `part` of the way from toe (0) to heel (1), and on to the middle of the bar (2).
    pub fn at(&self, part: f64) -> f64 {
        let ease = |from: f64, to: f64, t: f64| {
            let t = t.clamp(0.0, 1.0);
            from + (to - from) * t * t * (3.0 - 2.0 * t)
        };
        match part {
            part if part < 0.5 => ease(self.toe, self.quarter, part * 2.0),
            part if part < 1.0 => ease(self.quarter, self.heel, part * 2.0 - 1.0),
            part => ease(self.heel, self.back, part - 1.0),
        }
    }
}

/// Where the toe arc ends, how far from there to the tangents' meeting point, and how far
/// behind the toe the greatest width lies.
///
/// The curve from arc to greatest width is balanced: it is the circle itself where the
/// radius is half the width.
pub(super) fn widest_at(front: Front, half: f64) -> (Point, f64, f64) {
    let end = Point::new(
        front.flat + front.radius * ARC.sin(),
        front.radius * (1.0 - ARC.cos()),
    );
    let reach = (half - end.x) / ARC.cos();
    (end, reach, end.y + reach * ARC.sin() + reach)
}

/// The outer edge from the middle of the toe to the heel.
pub(super) fn outer(front: Front, half: f64, tail: Tail) -> BezPath {
    let (end, reach, widest) = widest_at(front, half);
    let direction = Vec2::new(ARC.cos(), ARC.sin());
    let arc = 4.0 / 3.0 * (ARC / 4.0).tan() * front.radius;
    let turn = PI / 2.0 - ARC;
    let balance = 4.0 / 3.0 * (turn / 4.0).tan() / (turn / 2.0).tan();
    let mut path = BezPath::new();
    path.move_to((0.0, 0.0));
    if front.flat > 0.0 {
        path.line_to((front.flat, 0.0));
    }
    path.curve_to(
        Point::new(front.flat + arc, 0.0),
        end - arc * direction,
        end,
    );
    path.curve_to(
        end + balance * reach * direction,
        Point::new(half, widest - balance * reach),
        Point::new(half, widest),
    );
    match tail {
        Tail::Heel(heel) => {
            let pull = Point::new(half, widest + 0.5 * (heel.y - widest));
            path.curve_to(
                Point::new(half, widest).lerp(pull, 0.62),
                heel.lerp(pull, 0.62),
                heel,
            );
        }
        Tail::Round { length, fullness } => path.curve_to(
            (half, widest + fullness * (length - widest)),
            (fullness * half, length),
            (0.0, length),
        ),
    }
    path
}

/// Points of the inner edge, from the toe backwards; the heel lies at `heel_y`.
pub(super) fn inner(outer: &BezPath, webs: Webs, heel_y: f64) -> Vec<Point> {
    let mut samples: Vec<(Point, Vec2)> = Vec::new();
    for seg in outer.segments() {
        let first = u32::from(!samples.is_empty());
        for index in first..=FINE {
            let t = f64::from(index) / f64::from(FINE);
            samples.push((seg.eval(t), inward(seg, t)));
        }
    }
    let mut along = vec![0.0];
    let mut sum = 0.0;
    let mut heel = None;
    for pair in samples.windows(2) {
        let [(from, _), (to, _)] = pair else { continue };
        sum += (*to - *from).hypot();
        along.push(sum);
        if heel.is_none() && to.y >= heel_y - 1e-9 {
            heel = Some(sum);
        }
    }
    let heel = heel.unwrap_or(sum).max(f64::MIN_POSITIVE);
    let behind = (sum - heel).max(f64::MIN_POSITIVE);
    samples
        .iter()
        .zip(along)
        .map(|((point, inward), along)| {
            let part = if along <= heel {
                along / heel
            } else {
                1.0 + (along - heel) / behind
            };
            *point + *inward * webs.at(part)
        })
        .collect()
}

/// Into the steel, on the right of the middle line.
fn inward(seg: PathSeg, t: f64) -> Vec2 {
    let tangent = derivative(seg, t);
    Vec2::new(-tangent.y, tangent.x)
}

/// How far from the middle line the inner edge lies at `y`, on its way back; where it
/// ends before that, at its end.
pub(super) fn inner_at(points: &[Point], y: f64) -> f64 {
    let crossing = points.windows(2).find_map(|pair| {
        let [from, to] = pair else { return None };
        let is_here = from.y <= y && to.y >= y && to.y > from.y;
        is_here.then(|| from.lerp(*to, (y - from.y) / (to.y - from.y)).x)
    });
    crossing
        .or_else(|| points.last().map(|point| point.x))
        .unwrap_or(0.0)
}

/// The value between `low` and `high` at which the growing `of` comes to `wanted`; what it
/// comes to at both ends where it cannot.
pub(super) fn solve(
    (mut low, mut high): (f64, f64),
    wanted: f64,
    of: impl Fn(f64) -> f64,
) -> Result<f64, (f64, f64)> {
    let ends = (of(low), of(high));
    let is_between = ends.0 <= wanted && wanted <= ends.1;
    if !is_between {
        return Err(ends);
    }
    for _ in 0..HALVINGS {
        let middle = (low + high) / 2.0;
        if of(middle) < wanted {
            low = middle;
        } else {
            high = middle;
        }
    }
    Ok((low + high) / 2.0)
}

/// Width of the steel `along` mm from the middle of the toe.
pub(super) fn web_at(edge: &Edge, along: f64, webs: Webs) -> f64 {
    let heel = edge.heel();
    if along <= heel {
        webs.at(along / heel)
    } else {
        let behind = (edge.length() - heel).max(f64::MIN_POSITIVE);
        webs.at(1.0 + (along - heel) / behind)
    }
}
