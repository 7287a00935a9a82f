use kurbo::{Point, Vec2};
use num_traits::AsPrimitive;

use crate::gauge::steel::{SPACING, blur};
use crate::piece::Chain;

/// From place to place along the middle of a groove, in mm.
pub const STEP: f64 = 0.25;
/// The line is smoothed over so many mm before, and again for its direction.
const SMOOTH: f64 = 2.0;

/// A place on the middle of a groove.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Place {
    /// In mm on the plane of the ground face.
    pub at: Point,
    /// Along the groove from left to right, of length 1.
    pub along: Vec2,
    /// Away from the shoe's outer edge, of length 1.
    pub inward: Vec2,
}

/// Places in even steps along a groove's middle, which runs from the left to the right in steps
/// of [`SPACING`].
pub fn along(middle: &[Point]) -> Vec<Place> {
    let Some(chain) = Chain::of(&smoothed(middle, SMOOTH / SPACING)) else {
        return Vec::new();
    };
    let steps: u32 = (chain.length() / STEP).round().as_();
    let places: Vec<Point> = chain.spread(steps.max(1)).collect();
    let even = smoothed(&places, SMOOTH / STEP);
    let before = even.first().into_iter().chain(&even);
    let after = even.iter().skip(1).chain(even.last());
    let ways = before.zip(after).map(|(before, after)| *after - *before);
    let pairs = places.iter().zip(ways);
    pairs
        .map(|(at, way)| {
            let along = way.normalize();
            Place {
                at: *at,
                along,
                // Who walks from left to right over the toe has the shoe at the right hand.
                inward: Vec2::new(along.y, -along.x),
            }
        })
        .collect()
}

/// An open line smoothed over so many of its places.
fn smoothed(line: &[Point], deviation: f64) -> Vec<Point> {
    let weights = blur::weights(deviation);
    let along = |of: &dyn Fn(&Point) -> f64| {
        let row: Vec<f32> = line.iter().map(|at| of(at).as_()).collect();
        blur::row(&row, &weights)
    };
    let (x, y) = (along(&|at| at.x), along(&|at| at.y));
    let both = x.iter().zip(&y);
    both.map(|(x, y)| Point::new(f64::from(*x), f64::from(*y)))
        .collect()
}
