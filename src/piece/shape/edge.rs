//! The outer edge of one branch and what lies along it.

use kurbo::{
    BezPath, ParamCurve as _, ParamCurveArclen as _, ParamCurveDeriv as _, PathSeg, Point, Vec2,
};

/// How exactly lengths along a curve are found, in mm.
const FINE: f64 = 1e-6;

/// The outer edge of one branch, from the middle of the toe to the heel, in mm.
///
/// The shoe lies ground side up, toe up: x to the right, y from the toe to the heels.
#[derive(Debug, Clone, PartialEq)]
pub struct Edge {
    /// The curve.
    pub path: BezPath,
    /// Whether it is the right one; the left one runs the other way round.
    right: bool,
    lengths: Vec<f64>,
    heel: f64,
}

impl Edge {
    /// The edge of a right branch whose heel lies `heel_y` behind the toe.
    pub(super) fn new(path: BezPath, heel_y: f64) -> Self {
        let lengths = path.segments().map(|seg| seg.arclen(FINE)).collect();
        let mut edge = Self {
            path,
            right: true,
            lengths,
            heel: 0.0,
        };
        edge.heel = edge.behind_toe(heel_y);
        edge
    }

    /// Length from the middle of the toe to the heel, in mm.
    pub fn heel(&self) -> f64 {
        self.heel
    }

    /// Length of the whole; that of an egg bar goes on from the heel to the middle line.
    pub fn length(&self) -> f64 {
        self.lengths.iter().sum()
    }

    /// The segment that `along` falls into, and where in it.
    fn find(&self, along: f64) -> Option<(PathSeg, f64)> {
        let mut rest = along.max(0.0);
        let mut last = None;
        for (seg, length) in self.path.segments().zip(&self.lengths) {
            if rest <= *length {
                return Some((seg, seg.inv_arclen(rest, FINE)));
            }
            rest -= length;
            last = Some((seg, 1.0));
        }
        last
    }

    /// The point `along` mm from the middle of the toe, the direction towards the heel
    /// and the one into the steel, both of length 1. What lies past an end is the end.
    pub fn at(&self, along: f64) -> (Point, Vec2, Vec2) {
        let Some((seg, t)) = self.find(along) else {
            return (Point::ZERO, Vec2::new(1.0, 0.0), Vec2::new(0.0, 1.0));
        };
        let tangent = derivative(seg, t);
        let inward = if self.right {
            Vec2::new(-tangent.y, tangent.x)
        } else {
            Vec2::new(tangent.y, -tangent.x)
        };
        (seg.eval(t), tangent, inward)
    }

    /// `count` places from `from` to `to`, both included, in mm along the edge.
    pub(super) fn places(from: f64, to: f64, count: u32) -> impl Iterator<Item = f64> {
        let step = (to - from) / f64::from(count.max(2) - 1);
        (0..count.max(2)).map(move |index| from + step * f64::from(index))
    }
}

/// The direction of a segment, of length 1.
pub(super) fn derivative(seg: PathSeg, t: f64) -> Vec2 {
    let raw = match seg {
        PathSeg::Line(line) => line.p1 - line.p0,
        PathSeg::Quad(quad) => quad.deriv().eval(t).to_vec2(),
        PathSeg::Cubic(cubic) => cubic.deriv().eval(t).to_vec2(),
    };
    if raw.hypot() > 0.0 {
        raw.normalize()
    } else {
        Vec2::new(0.0, 1.0)
    }
}

/// A smooth curve through points: cubic pieces whose direction at each point is that
/// of its neighbours' chord.
pub(super) fn smooth(points: &[Point]) -> BezPath {
    let mut path = BezPath::new();
    let Some(first) = points.first() else {
        return path;
    };
    path.move_to(*first);
    append_smooth(&mut path, points);
    path
}

/// The same, behind what `path` holds; `points` begin where it ends.
pub(super) fn append_smooth(path: &mut BezPath, points: &[Point]) {
    let at = |index: usize| points.get(index).copied();
    for (index, pair) in points.windows(2).enumerate() {
        let [from, to] = *pair else { continue };
        let before = index.checked_sub(1).and_then(at).unwrap_or(from);
        let after = at(index + 2).unwrap_or(to);
        let control_1 = from + (to - before) / 6.0;
        let control_2 = to - (after - from) / 6.0;
        path.curve_to(control_1, control_2, to);
    }
}

impl Edge {
    /// The same edge on the other side of the middle line.
    pub(super) fn mirrored(&self) -> Self {
        Self {
            path: kurbo::Affine::FLIP_X * &self.path,
            right: !self.right,
            lengths: self.lengths.clone(),
            heel: self.heel,
        }
    }

    /// The edge from the middle of the toe to `along`.
    pub(super) fn upto(&self, along: f64) -> BezPath {
        let mut rest = along;
        let mut segments = Vec::new();
        for (seg, length) in self.path.segments().zip(&self.lengths) {
            if rest >= *length {
                segments.push(seg);
                rest -= length;
            } else {
                if rest > 0.0 {
                    segments.push(seg.subsegment(0.0..seg.inv_arclen(rest, FINE)));
                }
                break;
            }
        }
        BezPath::from_path_segments(segments.into_iter())
    }

    /// How far along the edge it first lies `y` behind the toe; its length where it never does.
    pub(super) fn behind_toe(&self, y: f64) -> f64 {
        let (mut low, mut high) = (0.0, self.length());
        if self.at(high).0.y < y {
            return high;
        }
        for _ in 0..40 {
            let middle = (low + high) / 2.0;
            if self.at(middle).0.y < y {
                low = middle;
            } else {
                high = middle;
            }
        }
        high
    }
}
