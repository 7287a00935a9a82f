use kurbo::{Point, Vec2};

use super::Refused;
use super::shoe::Shoe;
use super::zone::minimum_zone;
use crate::figures::Line;

/// The part of the way between the heel corners that the back edge is measured over.
pub(super) const MIDDLE: f64 = 0.8;
/// Places along the back edge.
const STEPS: u32 = 800;
/// Where the heel gap is looked for: the rear fifth of the shoe's length.
const REAR: f64 = 0.8;
/// Lines across it there.
const LEVELS: u32 = 100;

/// How the shoe ends behind.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Heels {
    /// Closed by a bar.
    Bar(Bar),
    /// Open: the least distance, across the mirror axis, between the inner edges of the rear
    /// fifth of the shoe's length, in mm.
    Open(f64),
}

/// The bar of a shoe.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bar {
    /// Its width on the mirror axis, in mm.
    pub width: f64,
    /// Straightness of its back edge over the middle 80 % between the heel corners, in mm: the
    /// distance of the minimum zone (ISO 12780).
    pub straightness: f64,
    /// Squareness: angle of the least-squares line of the same part from square to the mirror
    /// axis, in radians, above zero where the right end lies further back.
    pub angle: f64,
    /// The same by the minimum zone.
    pub zone_angle: f64,
    /// How far the middle of the same part lies behind its least-squares line by its
    /// least-squares parabola, in mm, above zero where it bulges back: a third of the rise of an
    /// even bow.
    pub bow: f64,
}

impl Heels {
    /// A shoe with an inner outline has a bar.
    ///
    /// # Errors
    ///
    /// [`Refused::Missing`] where it is not found.
    pub(super) fn of(shoe: &Shoe) -> Result<Self, Refused> {
        if shoe.inner.is_empty() {
            let [left, right] = gap_line(shoe).ok_or(Refused::Missing("the heel gap"))?;
            Ok(Self::Open(right.x - left.x))
        } else {
            let bar = Bar::of(shoe).ok_or(Refused::Missing("the bar"))?;
            Ok(Self::Bar(bar))
        }
    }
}

impl Bar {
    fn of(shoe: &Shoe) -> Option<Self> {
        let corners = shoe.corners();
        let middle = corners.left.midpoint(corners.right).x;
        let half = (corners.right.x - corners.left.x).abs() * MIDDLE / 2.0;
        let edge = shoe.rest.spread(STEPS);
        let edge: Vec<Point> = edge.filter(|at| (at.x - middle).abs() < half).collect();
        let (xs, ys): (Vec<f64>, Vec<f64>) = edge.iter().map(|at| (at.x, at.y)).unzip();
        let zone = minimum_zone(&edge)?;
        let behind = Point::new(0.0, shoe.back + 0.1 * shoe.length);
        let width = shoe.steel(behind, Vec2::new(0.0, -1.0))?;
        let is_bar = width < shoe.length / 2.0;
        let line = Line::fit(&xs, &ys).ok()?;
        is_bar.then_some(Self {
            width,
            straightness: zone.width,
            angle: line.slope.atan(),
            zone_angle: zone.angle,
            bow: bow(&edge, line, middle),
        })
    }
}

/// The parabola through points less the line through them, at one x: its square term is fitted
/// to what the line leaves, once what line and mean tell of it is taken off.
fn bow(points: &[Point], line: Line, at: f64) -> f64 {
    let sum = |of: &dyn Fn(f64) -> f64| points.iter().map(|point| of(point.x)).sum::<f64>();
    let count = sum(&|_| 1.0);
    let middle = sum(&|x| x) / count;
    let power = |exponent| sum(&|x| (x - middle).powi(exponent));
    let (mean, slope) = (power(2) / count, power(3) / power(2));
    let square = |x: f64| (x - middle).powi(2) - slope * (x - middle) - mean;
    let left = points
        .iter()
        .map(|point| (point.y - line.at(point.x)) * square(point.x));
    left.sum::<f64>() / sum(&|x| square(x).powi(2)) * square(at)
}

/// Across the axis from inner edge to inner edge where they come nearest.
pub(super) fn gap_line(shoe: &Shoe) -> Option<[Point; 2]> {
    let start = REAR * shoe.back;
    let step = (shoe.back - start) / f64::from(LEVELS);
    let levels = (0..LEVELS).map(|level| start + f64::from(level) * step);
    let gaps = levels.filter_map(|level| {
        // The inner edges are those nearest to the axis on either side.
        let met = shoe.ring.sides().filter_map(|(from, to)| {
            let is_met = (from.y > level) != (to.y > level);
            is_met.then(|| from.lerp(to, (from.y - level) / (from.y - to.y)).x)
        });
        let (left, right) = met.fold((f64::NEG_INFINITY, f64::INFINITY), |(left, right), x| {
            if x < 0.0 {
                (left.max(x), right)
            } else {
                (left, right.min(x))
            }
        });
        let gap = right - left;
        let ends = [left, right].map(|x| Point::new(x, level));
        gap.is_finite().then_some((gap, ends))
    });
    let least = gaps.min_by(|one, other| one.0.total_cmp(&other.0))?;
    Some(least.1)
}
