use kurbo::Point;

/// The convex hull, clockwise in a picture whose y runs down.
///
/// *Source:* A. M. Andrew, Another efficient algorithm for convex hulls in two dimensions,
/// 1979 (from memory).
pub fn hull(points: impl Iterator<Item = Point>) -> Vec<Point> {
    let mut points: Vec<Point> = points.collect();
    points.sort_by(|a, b| a.x.total_cmp(&b.x).then(a.y.total_cmp(&b.y)));
    let chain = |points: &mut dyn Iterator<Item = Point>| {
        let mut chain: Vec<Point> = Vec::new();
        for point in points {
            while let [.., before, last] = chain.as_slice()
                && (*last - *before).cross(point - *last) <= 0.0
            {
                chain.pop();
            }
            chain.push(point);
        }
        chain.pop();
        chain
    };
    let mut hull = chain(&mut points.iter().copied());
    hull.extend(chain(&mut points.iter().rev().copied()));
    hull
}
