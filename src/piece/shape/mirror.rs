//! The line in which an outline comes nearest to its own mirror image.

use std::f64::consts::{FRAC_PI_2, FRAC_PI_8, PI};

use kurbo::{BezPath, PathEl, Point, Rect, Vec2};

/// Points that are mirrored, evenly spaced along the outline.
const POINTS: u32 = 480;
/// Every how many of them tell which start is the best.
const COARSE: usize = 12;
/// How far chords may leave the curve, in mm per mm of the outline's size.
const CHORD: f64 = 2e-5;
/// Steps towards the best line; it takes three to six.
const STEPS: u32 = 30;
/// Steps end at one that turns by less than this (in radians), and shifts by less than this
/// part of the outline's size.
const DONE: f64 = 1e-7;
/// Chords that share a box; a box too far off is passed over as a whole.
const SHARE: usize = 16;

/// A line in the plane of a shoe.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MirrorAxis {
    /// A point on it, in mm: the one nearest to the outline's centroid.
    pub point: Point,
    /// Its direction in radians from x towards y, from 0 to just under π.
    pub angle: f64,
}

impl MirrorAxis {
    /// x = 0.
    pub(super) const MIDDLE: Self = Self {
        point: Point::ZERO,
        angle: FRAC_PI_2,
    };

    /// Its direction as a vector of length 1.
    pub fn direction(self) -> Vec2 {
        Vec2::from_angle(self.angle)
    }

    /// Distance of a point from it in mm, positive on the side that its normal points to.
    fn off(self, point: Point) -> f64 {
        (point - self.point).dot(self.normal())
    }

    fn normal(self) -> Vec2 {
        let along = self.direction();
        Vec2::new(-along.y, along.x)
    }

    /// The mirror image of a point.
    pub fn mirror(self, point: Point) -> Point {
        point - self.normal() * (2.0 * self.off(point))
    }

    /// Its part between two heights, as the drawing lies: where it meets `top` and `bottom`.
    /// `None` for an axis that runs nearly across.
    pub fn between(self, top: f64, bottom: f64) -> Option<[Point; 2]> {
        let along = self.direction();
        let at = |y: f64| self.point + along * ((y - self.point.y) / along.y);
        (along.y.abs() > 0.1).then(|| [at(top), at(bottom)])
    }

    /// The same line seen from the other side of x = 0.
    pub(super) fn mirrored(self) -> Self {
        Self {
            point: super::mirrored(self.point),
            angle: (PI - self.angle).rem_euclid(PI),
        }
    }
}

/// The mirror axis of a closed outline; `None` for one without area.
///
/// *Formula:* with M the mirror image in the line, the axis is the line that minimises
/// E = (1/n) Σ d(M(pᵢ), outline)², where the pᵢ are points evenly spaced along the outline
/// and d is the distance to the nearest point of it. A mirror image keeps distances and is its own
/// inverse, so d(M(p), outline) = d(p, M(outline)): both directions give the same sum.
///
/// *Method:* lines through the centroid along the principal axes and between them (every
/// 22.5 degrees) are tried; from the best, Gauss–Newton steps on angle and offset, halved
/// while they do not lessen E. *Units:* mm.
pub fn mirror_axis(outline: &BezPath) -> Option<MirrorAxis> {
    let ring = Ring::of(outline)?;
    let points = ring.spread();
    let first = ring.principal;
    let starts = (0..8_u8).map(|turn| MirrorAxis {
        point: ring.centroid,
        angle: first + f64::from(turn) * FRAC_PI_8,
    });
    let few: Vec<Point> = points.iter().step_by(COARSE).copied().collect();
    let tried = starts.map(|axis| (ring.fit(axis, &few).error, axis));
    let (_, start) = tried.min_by(|(one, _), (other, _)| one.total_cmp(other))?;
    let mut axis = start;
    let mut fit = ring.fit(axis, &points);
    for _ in 0..STEPS {
        let Some((turn, shift)) = fit.step() else {
            break;
        };
        if turn.abs() < DONE && shift.abs() < DONE * ring.size {
            break;
        }
        let Some((better, found)) = ring.shorten(axis, (turn, shift), fit.error, &points) else {
            break;
        };
        (axis, fit) = (better, found);
    }
    let normal = axis.normal();
    let off = axis.off(ring.centroid);
    Some(MirrorAxis {
        point: ring.centroid - normal * off,
        angle: axis.angle.rem_euclid(PI),
    })
}

/// How well a line does, and the sums that a Gauss–Newton step needs.
#[derive(Debug, Clone, Copy, Default)]
struct Fit {
    /// Mean squared distance in mm².
    error: f64,
    turn_turn: f64,
    turn_shift: f64,
    shift_shift: f64,
    turn: f64,
    shift: f64,
}

impl Fit {
    /// Turn in radians and shift in mm that solve the two normal equations.
    fn step(&self) -> Option<(f64, f64)> {
        let det = self.turn_turn * self.shift_shift - self.turn_shift * self.turn_shift;
        let scale = self.turn_turn * self.shift_shift;
        (det > 1e-12 * scale).then(|| {
            let turn = self.turn_shift * self.shift - self.shift_shift * self.turn;
            let shift = self.turn_shift * self.turn - self.turn_turn * self.shift;
            (turn / det, shift / det)
        })
    }
}

/// A chord of an outline.
#[derive(Clone, Copy)]
struct Side {
    from: Point,
    way: Vec2,
    /// Its length in mm.
    length: f64,
    /// One over its squared length.
    inverse: f64,
}

/// Chords that follow each other, and the box around them.
struct Stretch {
    around: Rect,
    sides: Vec<Side>,
}

impl Stretch {
    fn of(sides: &[Side]) -> Option<Self> {
        let mut boxes = sides
            .iter()
            .map(|side| Rect::from_points(side.from, side.from + side.way));
        let first = boxes.next()?;
        Some(Self {
            around: boxes.fold(first, |all, one| all.union(one)),
            sides: sides.to_vec(),
        })
    }

    /// Squared distance of a point from the box.
    fn far(&self, point: Point) -> f64 {
        let Rect { x0, y0, x1, y1 } = self.around;
        let right = (x0 - point.x).max(point.x - x1).max(0.0);
        let down = (y0 - point.y).max(point.y - y1).max(0.0);
        right * right + down * down
    }
}

/// A closed outline as chords.
struct Ring {
    stretches: Vec<Stretch>,
    /// Width and height together, in mm.
    size: f64,
    centroid: Point,
    /// Direction of a principal axis of its area, in radians.
    principal: f64,
}

impl Ring {
    fn of(outline: &BezPath) -> Option<Self> {
        let size = kurbo::Shape::bounding_box(outline);
        let fine = (size.width() + size.height()) * CHORD;
        if !(fine.is_finite() && fine > 0.0) {
            return None;
        }
        let mut corners: Vec<Point> = Vec::new();
        kurbo::flatten(outline, fine, |element| match element {
            PathEl::MoveTo(point) | PathEl::LineTo(point) => corners.push(point),
            _ => {}
        });
        let first = *corners.first()?;
        let next = corners.iter().skip(1).chain([&first]);
        let sides = corners.iter().zip(next).map(|(from, to)| {
            let way = *to - *from;
            Side {
                from: *from,
                way,
                length: way.hypot(),
                inverse: way.hypot2().recip(),
            }
        });
        let sides: Vec<Side> = sides.filter(|side| side.inverse.is_finite()).collect();
        let (mut area, mut sum) = (0.0, Vec2::ZERO);
        let (mut xx, mut xy, mut yy) = (0.0, 0.0, 0.0);
        for side in &sides {
            let a = side.from - first;
            let b = a + side.way;
            let cross = a.cross(b);
            area += cross / 2.0;
            sum += (a + b) * (cross / 6.0);
            xx += cross * (a.x * a.x + a.x * b.x + b.x * b.x) / 12.0;
            yy += cross * (a.y * a.y + a.y * b.y + b.y * b.y) / 12.0;
            xy += cross * (2.0 * (a.x * a.y + b.x * b.y) + a.x * b.y + b.x * a.y) / 24.0;
        }
        if area.abs() <= 1e-9 * size.width() * size.height() {
            return None;
        }
        let mean = sum / area;
        let (xx, xy, yy) = (
            xx / area - mean.x * mean.x,
            xy / area - mean.x * mean.y,
            yy / area - mean.y * mean.y,
        );
        Some(Self {
            stretches: sides.chunks(SHARE).filter_map(Stretch::of).collect(),
            size: size.width() + size.height(),
            centroid: first + mean,
            principal: (2.0 * xy).atan2(xx - yy) / 2.0,
        })
    }

    /// Points evenly spaced along it.
    fn spread(&self) -> Vec<Point> {
        let sides = || self.stretches.iter().flat_map(|stretch| &stretch.sides);
        let around: f64 = sides().map(|side| side.length).sum();
        let step = around / f64::from(POINTS);
        let mut points = Vec::new();
        let mut rest = step / 2.0;
        for side in sides() {
            while rest < side.length {
                points.push(side.from + side.way * (rest / side.length));
                rest += step;
            }
            rest -= side.length;
        }
        points
    }

    /// From the outline's nearest point to a point, and the direction square to the outline
    /// there. `near` is the stretch that is looked at first, and afterwards the one found.
    fn nearest(&self, point: Point, near: &mut usize) -> (Vec2, Vec2) {
        let mut best = (f64::INFINITY, Vec2::ZERO, Vec2::ZERO);
        let first = *near;
        let all = self.stretches.iter().enumerate();
        for (at, stretch) in all.clone().skip(first).chain(all.take(first)) {
            if stretch.far(point) >= best.0 {
                continue;
            }
            for side in &stretch.sides {
                let from = point - side.from;
                let along = (from.dot(side.way) * side.inverse).clamp(0.0, 1.0);
                let off = from - side.way * along;
                let far = off.hypot2();
                if far < best.0 {
                    best = (far, off, side.way);
                    *near = at;
                }
            }
        }
        let (far, off, side) = best;
        let square = Vec2::new(-side.y, side.x).normalize();
        // At a corner the distance grows along the line to it.
        let away = if far.sqrt() > 1e-9 {
            off / far.sqrt()
        } else {
            square
        };
        (off, away)
    }

    fn fit(&self, axis: MirrorAxis, points: &[Point]) -> Fit {
        let (along, normal) = (axis.direction(), axis.normal());
        let mut fit = Fit::default();
        let mut near = 0;
        for point in points {
            let off = axis.off(*point);
            let (apart, away) = self.nearest(axis.mirror(*point), &mut near);
            let rest = apart.dot(away);
            // How the mirror image moves when the line is turned about its point or shifted
            // along its normal.
            let by_turn = along * off - normal * (*point - axis.point).dot(-along);
            let (turn, shift) = (2.0 * by_turn.dot(away), 2.0 * normal.dot(away));
            fit.error += rest * rest;
            fit.turn_turn += turn * turn;
            fit.turn_shift += turn * shift;
            fit.shift_shift += shift * shift;
            fit.turn += turn * rest;
            fit.shift += shift * rest;
        }
        let count = u32::try_from(points.len()).map_or(1.0, f64::from);
        fit.error /= count;
        fit
    }

    /// The step, halved until the line does better; `None` where it does not.
    fn shorten(
        &self,
        axis: MirrorAxis,
        (turn, shift): (f64, f64),
        error: f64,
        points: &[Point],
    ) -> Option<(MirrorAxis, Fit)> {
        let mut part = 1.0;
        for _ in 0..8 {
            let next = MirrorAxis {
                point: axis.point + axis.normal() * (part * shift),
                angle: axis.angle + part * turn,
            };
            let fit = self.fit(next, points);
            if fit.error < error {
                return Some((next, fit));
            }
            part /= 2.0;
        }
        None
    }
}
