use kurbo::Point;

/// Two parallel lines that enclose points with the least distance between them.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Zone {
    /// Distance of the lines: the straightness of the points.
    pub width: f64,
    /// Direction of the lines in radians from x towards y, above -π/2 and up to π/2.
    pub angle: f64,
}

/// The minimum zone of points; `None` for fewer than two different ones.
///
/// *Definition:* straightness as ISO 12780-1 has it, the reference lines of the minimum zone.
/// *Method:* one of the two lines holds a side of the convex hull (M. E. Houle and G. T.
/// Toussaint, Computing the width of a set, IEEE Transactions on Pattern Analysis and Machine
/// Intelligence 10, 1988), so all sides are tried. *Units:* those of the points.
pub fn minimum_zone(points: &[Point]) -> Option<Zone> {
    let hull = hull(points);
    let ends = hull.iter().zip(hull.iter().cycle().skip(1));
    let zones = ends.filter(|(from, to)| from != to).map(|(from, to)| {
        let way = (*to - *from).normalize();
        let far = hull.iter().map(|point| way.cross(*point - *from));
        let angle = way.angle();
        let half = std::f64::consts::FRAC_PI_2;
        Zone {
            width: far.fold(0.0, f64::max),
            angle: half - (half - angle).rem_euclid(2.0 * half),
        }
    });
    zones.min_by(|one, other| one.width.total_cmp(&other.width))
}

/// Corners of the convex hull, turning from x towards y.
///
/// *Source:* the monotone chain of A. M. Andrew, Information Processing Letters 9, 1979.
fn hull(points: &[Point]) -> Vec<Point> {
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
