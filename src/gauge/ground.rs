use kurbo::{Line, ParamCurveNearest as _, Point, Rect};
use nalgebra::Point3;

use super::polygon::{hull, sides};
use super::scale::Scale;
use super::sheet::plain_patch;
use super::view::View;

/// Where on a plane a shoe may lie: a convex outline, in mm.
#[derive(Debug, Clone, PartialEq)]
pub struct Ground {
    /// Its corners, turning from x towards y.
    ring: Vec<Point>,
    /// What lies there and is no shoe: places that outline it.
    taken: Vec<Point>,
    /// Whether things may reach over its edge that are no shoe.
    is_open: bool,
}

/// From the ground's edge so many mm nothing is looked at.
const INSET: f64 = 3.0;
/// So near to what lies there, in mm, all is taken for a part of it.
const BESIDE: f64 = 1.5;
/// So far from what the middle of the picture shows, in mm, nothing is looked at.
const FAR: f64 = 300.0;

impl Ground {
    /// The ground about what has a known size: all of the sheet; beside a ruler or a card, the
    /// plain light ground that the picture shows most of; all of a scan.
    pub fn of(view: &View<'_>, scale: Scale) -> Self {
        match scale {
            Scale::Sheet(sheet) if !sheet.about().is_beside => Self {
                ring: hull(&sheet.corners()),
                taken: Vec::new(),
                is_open: false,
            },
            Scale::Scan(_) => Self {
                ring: hull(&on_plane(view, &corners(view))),
                taken: Vec::new(),
                is_open: true,
            },
            Scale::Sheet(_) | Scale::Ruler { .. } => {
                let taken = scale.corners(view.camera).into_iter();
                let seen = |at: Point| {
                    let pixel = view.camera.project(Point3::new(at.x, at.y, 0.0))?;
                    view.camera.meets(pixel, view.height)
                };
                Self {
                    ring: near(view, &hull(&on_plane(view, &plain_patch(view.picture)))),
                    taken: taken.filter_map(seen).collect(),
                    is_open: true,
                }
            }
        }
    }

    /// The rectangle about all that is looked at.
    pub fn bounds(&self) -> Rect {
        let first = self.ring.first().copied().unwrap_or_default();
        let start = Rect::from_points(first, first);
        let all = self.ring.iter().fold(start, |all, at| all.union_pt(*at));
        all.inflate(-INSET, -INSET)
    }

    /// Whether a place is looked at.
    pub fn holds(&self, at: Point) -> bool {
        // What lies just on the edge counts, whatever rounding makes of it.
        let is_in =
            |(from, to): (Point, Point)| (to - from).normalize().cross(at - from) >= INSET - 1e-6;
        self.ring.len() > 2 && sides(&self.ring).all(is_in)
    }

    /// Whether something lies there that is no shoe and whose outline is known: a card.
    pub fn is_covered(&self, at: Point) -> bool {
        let turns = sides(&self.taken).map(|(from, to)| (to - from).cross(at - from) > 0.0);
        let inside = turns.filter(|is_left| *is_left).count();
        let is_inside = inside == 0 || inside == self.taken.len();
        self.taken.len() > 2 && (is_inside || self.is_beside(at))
    }

    /// Whether what is there is a part of something that is no shoe: a ruler between its marks.
    pub fn is_taken(&self, at: Point) -> bool {
        self.taken.len() == 2 && self.is_beside(at)
    }

    fn is_beside(&self, at: Point) -> bool {
        let mut sides = sides(&self.taken);
        sides.any(|(from, to)| Line::new(from, to).nearest(at, 1e-3).distance_sq < BESIDE.powi(2))
    }

    /// Whether things may reach over its edge that are no shoe.
    pub fn is_open(&self) -> bool {
        self.is_open
    }
}

/// Corners of the picture, in pixels.
fn corners(view: &View<'_>) -> [Point; 4] {
    let (right, bottom) = (
        view.picture.width() as f64 - 1.0,
        view.picture.height() as f64 - 1.0,
    );
    [(0.0, 0.0), (right, 0.0), (right, bottom), (0.0, bottom)].map(Point::from)
}

fn on_plane(view: &View<'_>, pixels: &[Point]) -> Vec<Point> {
    let places = pixels.iter();
    places
        .filter_map(|at| view.camera.meets(*at, view.height))
        .collect()
}

/// What of a convex outline lies near the middle of the picture.
///
/// *Source:* I. E. Sutherland and G. W. Hodgman, Reentrant polygon clipping, 1974 (from memory).
fn near(view: &View<'_>, ring: &[Point]) -> Vec<Point> {
    let Some(middle) = view.camera.meets(view.picture.middle(), view.height) else {
        return Vec::new();
    };
    let sides: [&dyn Fn(Point) -> f64; 4] = [
        &|at| at.x - middle.x + FAR,
        &|at| middle.x + FAR - at.x,
        &|at| at.y - middle.y + FAR,
        &|at| middle.y + FAR - at.y,
    ];
    sides.into_iter().fold(ring.to_vec(), |ring, inside| {
        let mut kept = Vec::new();
        for (from, to) in self::sides(&ring) {
            let (one, other) = (inside(from), inside(to));
            if one >= 0.0 {
                kept.push(from);
            }
            if (one >= 0.0) != (other >= 0.0) {
                kept.push(from.lerp(to, one / (one - other)));
            }
        }
        kept
    })
}
