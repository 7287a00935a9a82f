use kurbo::{Point, Vec2};

use super::polygon::{centroid, hull};

/// A bar's back edge is told by a stretch of the outline of this length, as a share of all of
/// it: no branch is as straight for as long.
const STRETCH: f64 = 0.19;

/// Roughly the way from the middle of a shoe to its toe; `None` where an outline has no area.
///
/// *Shape:* `outer` runs round the shoe in even steps; of an open one it is the whole U. A bar
/// lies where the outline is straight for longest, and the toe opposite; the middle of an open
/// shoe's steel lies nearer to the toe than the middle of its hull.
pub fn to_toe(outer: &[Point], has_bar: bool) -> Option<Vec2> {
    let middle = centroid(outer)?;
    if has_bar {
        let back = straightest(outer)?;
        return Some(middle - back);
    }
    Some(middle - centroid(&hull(outer))?)
}

/// The middle of the straightest stretch of a closed line.
fn straightest(line: &[Point]) -> Option<Point> {
    let count = line.len();
    let far = (0..count)
        .filter(|place| (*place as f64) < STRETCH * count as f64)
        .count();
    let at = |place: usize| line.get(place % count.max(1)).copied();
    let bows = (0..count).filter_map(|start| {
        let (from, to) = (at(start)?, at(start + far)?);
        let way = (to - from).normalize();
        let between = (start..start + far).filter_map(at);
        let squares: f64 = between.map(|point| way.cross(point - from).powi(2)).sum();
        squares.is_finite().then(|| (squares, from.midpoint(to)))
    });
    let best = bows.min_by(|one, other| one.0.total_cmp(&other.0));
    best.map(|(_, middle)| middle)
}
