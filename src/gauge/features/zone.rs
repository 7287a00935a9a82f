use kurbo::Point;

use crate::gauge::polygon::hull;

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
