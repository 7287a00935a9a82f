use kurbo::{Point, Vec2};
use num_traits::AsPrimitive;

use super::blur;
use crate::gauge::polygon::area;
use crate::piece::Chain;

/// A closed line walked in steps of one length, as near to this one as goes; nothing of a line
/// that has no length.
pub fn in_steps(line: &[Point], step: f64) -> Vec<Point> {
    let closed: Vec<Point> = line.iter().chain(line.first()).copied().collect();
    let Some(chain) = Chain::of(&closed) else {
        return Vec::new();
    };
    let steps: u32 = f64::max((chain.length() / step).round(), 8.0).as_();
    // The last one is the first again.
    chain.spread(steps).take(steps.as_()).collect()
}

/// Unit vectors square to a closed line, out of what it goes round, told over so many steps.
pub fn outward(line: &[Point], steps: f64) -> Vec<Vec2> {
    let smooth = blur::line(line, steps);
    let sign = if area(line) > 0.0 { 1.0 } else { -1.0 };
    let count = smooth.len();
    let before = smooth.iter().cycle().skip(count.saturating_sub(1));
    let after = smooth.iter().cycle().skip(1);
    let along = before
        .zip(after)
        .take(count)
        .map(|(before, after)| *after - *before);
    along
        .map(|along| Vec2::new(along.y, -along.x).normalize() * sign)
        .collect()
}
