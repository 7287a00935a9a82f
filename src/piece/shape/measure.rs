use kurbo::{BezPath, ParamCurveArclen as _, PathEl, Point, Shape as _};

use super::MadeShoe;

/// Area of the plan in mm², steel only; fuller and holes are not taken off.
pub fn plan_area(shoe: &MadeShoe) -> f64 {
    let opening = shoe.opening.as_ref();
    shoe.outline.area().abs() - opening.map_or(0.0, |path| path.area().abs())
}

/// Length of a path in mm.
pub fn length(path: &BezPath) -> f64 {
    path.segments().map(|seg| seg.arclen(1e-6)).sum()
}

/// Centroid of the plan, steel only; `None` for a plan without area.
///
/// The outline is flattened to a thousandth of a millimetre; then the polygon's centroid
/// from Green's theorem.
pub fn centroid(shoe: &MadeShoe) -> Option<Point> {
    let (area, moment) = moments(&shoe.outline);
    let (hole, hole_moment) = shoe.opening.as_ref().map_or((0.0, (0.0, 0.0)), moments);
    let (area, x, y) = (
        area - hole,
        moment.0 - hole_moment.0,
        moment.1 - hole_moment.1,
    );
    (area > 0.0).then(|| Point::new(x / area, y / area))
}

/// Area and first moments of a closed path, whichever way it runs.
fn moments(path: &BezPath) -> (f64, (f64, f64)) {
    let mut points: Vec<Point> = Vec::new();
    kurbo::flatten(path, 1e-3, |element| match element {
        PathEl::MoveTo(point) | PathEl::LineTo(point) => points.push(point),
        _ => {}
    });
    let next = points.iter().cycle().skip(1);
    let (mut area, mut x, mut y) = (0.0, 0.0, 0.0);
    for (from, to) in points.iter().zip(next) {
        let cross = from.x * to.y - to.x * from.y;
        area += cross / 2.0;
        x += (from.x + to.x) * cross / 6.0;
        y += (from.y + to.y) * cross / 6.0;
    }
    if area < 0.0 {
        (-area, (-x, -y))
    } else {
        (area, (x, y))
    }
}
