use kurbo::{Point, Vec2};
use num_traits::AsPrimitive;

use super::blur;

/// A closed line walked in steps of one length, as near to this one as goes.
pub fn in_steps(line: &[Point], step: f64) -> Vec<Point> {
    let mut along = vec![0.0];
    let ends = line.iter().cycle().skip(1);
    for (from, to) in line.iter().zip(ends) {
        along.push(along.last().copied().unwrap_or(0.0) + (*to - *from).hypot());
    }
    let long = along.last().copied().unwrap_or(0.0);
    let count = f64::max((long / step).round(), 8.0);
    let steps: usize = count.as_();
    let mut corner = 0;
    let mut stations = Vec::with_capacity(steps);
    for station in 0..steps {
        let place = long * station as f64 / count;
        while along.get(corner + 1).is_some_and(|end| *end < place) {
            corner += 1;
        }
        let ends = line
            .get(corner)
            .zip(line.get((corner + 1) % line.len().max(1)));
        let reached = along.get(corner).zip(along.get(corner + 1));
        if let (Some((from, to)), Some((start, end))) = (ends, reached) {
            let share = if end > start {
                (place - start) / (end - start)
            } else {
                0.0
            };
            stations.push(from.lerp(*to, share));
        }
    }
    stations
}

/// Twice the area that a closed line goes round, more than nothing if it runs to the left.
fn turning(line: &[Point]) -> f64 {
    let ends = line.iter().cycle().skip(1);
    let pairs = line.iter().zip(ends);
    pairs
        .map(|(from, to)| from.to_vec2().cross(to.to_vec2()))
        .sum()
}

/// Unit vectors square to a closed line, out of what it goes round, told over so many steps.
pub fn outward(line: &[Point], steps: f64) -> Vec<Vec2> {
    let smooth = blur::line(line, steps);
    let sign = if turning(line) > 0.0 { 1.0 } else { -1.0 };
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
