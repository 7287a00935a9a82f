//! Polygons: points in order, the last one joined to the first.

use kurbo::{Point, Vec2};

/// Sides of a closed polygon.
pub fn sides(ring: &[Point]) -> impl Iterator<Item = (Point, Point)> + Clone {
    let next = ring.iter().cycle().skip(1);
    ring.iter().zip(next).map(|(from, to)| (*from, *to))
}

/// Signed area by the shoelace formula, above zero for a ring that turns from x towards y;
/// from the first point, so that a far-off frame costs no digits.
pub fn area(ring: &[Point]) -> f64 {
    let first = ring.first().copied().unwrap_or_default();
    let parts = sides(ring).map(|(from, to)| (from - first).cross(to - first) / 2.0);
    parts.sum()
}

/// The centroid of what a closed polygon goes round, in its units; `None` where that has no
/// area.
pub fn centroid(ring: &[Point]) -> Option<Point> {
    let first = ring.first()?;
    let moments = sides(ring).map(|(from, to)| {
        let (from, to) = (from - *first, to - *first);
        (from + to) * from.cross(to)
    });
    let sum = moments.fold(Vec2::ZERO, |sum, moment| sum + moment);
    let middle = *first + sum / (6.0 * area(ring));
    middle.is_finite().then_some(middle)
}

/// Corners of the convex hull, turning from x towards y.
///
/// *Source:* the monotone chain of A. M. Andrew, Information Processing Letters 9, 1979.
pub fn hull(points: &[Point]) -> Vec<Point> {
    let mut sorted = points.to_vec();
    sorted.sort_by(|one, other| one.x.total_cmp(&other.x).then(one.y.total_cmp(&other.y)));
    sorted.dedup();
    let mut lower = chain(sorted.iter());
    let upper = chain(sorted.iter().rev());
    // Each chain ends where the other begins.
    lower.pop();
    lower.extend(upper.iter().take(upper.len().saturating_sub(1)));
    if lower.is_empty() { sorted } else { lower }
}

fn chain<'a>(points: impl Iterator<Item = &'a Point>) -> Vec<Point> {
    let mut chain: Vec<Point> = Vec::new();
    for point in points {
        while let [.., before, last] = chain.as_slice()
            && (*last - *before).cross(*point - *last) <= 0.0
        {
            chain.pop();
        }
        chain.push(*point);
    }
    chain
}
