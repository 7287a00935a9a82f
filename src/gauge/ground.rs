use kurbo::{Line, ParamCurveNearest as _, Point, Rect, Vec2};
use nalgebra::Point3;

use super::overhang::Overhang;
use super::polygon::{hull, sides};
use super::refused::Refused;
use super::scale::Scale;
use super::sheet::plain_patch;
use super::steel::Followed;
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
    /// Of a sheet: how it is seen on the plane.
    sheet: Option<Overhang>,
    /// Whether the shoe may hang over its edge.
    may_overhang: bool,
}

/// From the ground's edge so many mm nothing is looked at.
const INSET: f64 = 3.0;
/// The same where a shoe may hang over that edge, which leaves less of its toe.
const NEARER: f64 = 1.5;
/// So far beyond the edge, in mm, it is then taken for what it is at the edge.
const BEYOND: f64 = 20.0;
/// So near to what lies there, in mm, all is taken for a part of it.
const BESIDE: f64 = 1.5;
/// So far from what the middle of the picture shows, in mm, nothing is looked at.
const FAR: f64 = 300.0;

impl Ground {
    /// The ground about what has a known size: all of the sheet; beside a ruler or a card, the
    /// plain light ground that the picture shows most of; all of a scan.
    ///
    /// *Shape:* `may_overhang` says that the shoe may hang over the sheet's edge.
    pub fn of(view: &View<'_>, scale: Scale, may_overhang: bool) -> Self {
        match scale {
            Scale::Sheet(sheet) if !sheet.about().is_beside => {
                let corners = sheet.corners();
                let seen = Overhang::of(view, &corners);
                Self {
                    ring: if may_overhang {
                        seen.ring().to_vec()
                    } else {
                        hull(&corners)
                    },
                    taken: Vec::new(),
                    is_open: false,
                    sheet: Some(seen),
                    may_overhang,
                }
            }
            Scale::Scan(_) => Self {
                ring: hull(&on_plane(view, &corners(view))),
                taken: Vec::new(),
                is_open: true,
                sheet: None,
                may_overhang: false,
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
                    sheet: None,
                    may_overhang: false,
                }
            }
        }
    }

    /// The rectangle about all that is looked at.
    pub fn bounds(&self) -> Rect {
        let first = self.ring.first().copied().unwrap_or_default();
        let start = Rect::from_points(first, first);
        let all = self.ring.iter().fold(start, |all, at| all.union_pt(*at));
        let by = if self.may_overhang { BEYOND } else { -INSET };
        all.inflate(by, by)
    }

    /// Where to look for what is at a place: beyond an edge that the shoe may hang over, the
    /// nearest place on this side.
    pub fn stand_in(&self, at: Point) -> Option<Point> {
        if !self.may_overhang {
            return self.holds(at).then_some(at);
        }
        let within = sides(&self.ring).fold(at, |at, (from, to)| {
            let along = (to - from).normalize();
            let lacks = f64::max(NEARER - along.cross(at - from), 0.0);
            at + Vec2::new(-along.y, along.x) * lacks
        });
        Some(within)
    }

    /// A line round a shoe, led over the sheet's edge where that may hang over it.
    pub fn led(&self, line: Vec<Point>) -> Vec<Point> {
        match self.overhang() {
            Some(overhang) => overhang.led(line),
            None => line,
        }
    }

    /// An edge that was followed, led over the sheet's edge where the shoe may hang over it.
    pub fn led_edge(&self, edge: Followed) -> Followed {
        match self.overhang() {
            Some(overhang) => overhang.led_edge(edge),
            None => edge,
        }
    }

    fn overhang(&self) -> Option<&Overhang> {
        self.sheet.as_ref().filter(|_| self.may_overhang)
    }

    /// Places of outlines, the outer one first, that hang over the sheet's edge.
    ///
    /// # Errors
    ///
    /// A shoe that hangs over it and may not, or by more than clips need.
    pub fn hanging(&self, outer: &[Point], inner: &[Vec<Point>]) -> Result<Vec<Point>, Refused> {
        let Some(sheet) = &self.sheet else {
            return Ok(Vec::new());
        };
        let hole = inner.iter().any(|line| sheet.is_met_by(line));
        let may = self.may_overhang && sheet.can_lead(outer);
        if hole || sheet.is_met_by(outer) && !may {
            return Err(Refused::Overhang);
        }
        Ok(if self.may_overhang {
            sheet.beyond(outer)
        } else {
            Vec::new()
        })
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
