//! The line in which an outline comes nearest to its own mirror image.

use std::f64::consts::{FRAC_PI_2, FRAC_PI_8, PI};

use kurbo::{BezPath, PathEl, Point, Vec2};

use super::chain::Chain;

/// Points that are mirrored, evenly spaced along the outline.
const POINTS: u32 = 480;
/// Every how many of them tell which start leads to the best line.
const COARSE: usize = 12;
/// How far chords may leave the curve, in mm per mm of the outline's size.
const CHORD: f64 = 2e-5;
/// Steps towards the best line; it takes three to six.
const STEPS: u32 = 30;
/// Steps from each start, before the best is told.
const FIRST_STEPS: u32 = 4;
/// Steps end at one that turns by less than this (in radians), and shifts by less than this
/// part of the outline's size.
const DONE: f64 = 1e-7;

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
/// 22.5 degrees) are bettered on few of the points by Gauss–Newton steps on angle and offset,
/// halved while they do not lessen E; the best of them then on all points. *Units:* mm.
pub fn mirror_axis(outline: &BezPath) -> Option<MirrorAxis> {
    let ring = Ring::of(outline)?;
    let points = ring.spread();
    let first = ring.principal;
    let starts = (0..8_u8).map(|turn| MirrorAxis {
        point: ring.centroid,
        angle: first + f64::from(turn) * FRAC_PI_8,
    });
    let few: Vec<Point> = points.iter().step_by(COARSE).copied().collect();
    let tried = starts.map(|start| {
        let axis = ring.refine(start, &few, FIRST_STEPS);
        (ring.fit(axis, &few).error, axis)
    });
    let (_, start) = tried.min_by(|(one, _), (other, _)| one.total_cmp(other))?;
    Some(ring.refine(start, &points, STEPS))
}

/// The line in which these points, mirrored, come nearest to a closed outline: as
/// [`mirror_axis`], with the pᵢ given and a line to begin with. `None` for an outline without
/// area, or without points.
pub fn mirror_axis_of(
    outline: &BezPath,
    points: &[Point],
    start: MirrorAxis,
) -> Option<MirrorAxis> {
    let ring = Ring::of(outline)?;
    (!points.is_empty()).then(|| ring.refine(start, points, STEPS))
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

/// A closed outline as chords.
struct Ring {
    chain: Chain,
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
        corners.push(first);
        let chain = Chain::of(&corners)?;
        let (mut area, mut sum) = (0.0, Vec2::ZERO);
        let (mut xx, mut xy, mut yy) = (0.0, 0.0, 0.0);
        for (from, to) in chain.sides() {
            let (a, b) = (from - first, to - first);
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
            chain,
            size: size.width() + size.height(),
            centroid: first + mean,
            principal: (2.0 * xy).atan2(xx - yy) / 2.0,
        })
    }

    /// Points evenly spaced along it.
    fn spread(&self) -> Vec<Point> {
        let step = self.chain.length() / f64::from(POINTS);
        let places = (0..POINTS).map(|place| (f64::from(place) + 0.5) * step);
        places.map(|along| self.chain.at(along)).collect()
    }

    /// From the outline's nearest point to a point, and the direction square to the outline
    /// there.
    fn nearest(&self, point: Point, near: &mut usize) -> (Vec2, Vec2) {
        let found = self.chain.nearest(point, near);
        let square = Vec2::new(-found.way.y, found.way.x).normalize();
        let far = found.distance();
        // At a corner the distance grows along the line to it.
        let away = if far > 1e-9 { found.off / far } else { square };
        (found.off, away)
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

    /// Gauss–Newton steps from a line until they no longer better it.
    fn refine(&self, start: MirrorAxis, points: &[Point], steps: u32) -> MirrorAxis {
        let mut axis = start;
        let mut fit = self.fit(axis, points);
        for _ in 0..steps {
            let Some((turn, shift)) = fit.step() else {
                break;
            };
            if turn.abs() < DONE && shift.abs() < DONE * self.size {
                break;
            }
            let Some((better, found)) = self.shorten(axis, (turn, shift), fit.error, points) else {
                break;
            };
            (axis, fit) = (better, found);
        }
        let normal = axis.normal();
        let off = axis.off(self.centroid);
        MirrorAxis {
            point: self.centroid - normal * off,
            angle: axis.angle.rem_euclid(PI),
        }
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
