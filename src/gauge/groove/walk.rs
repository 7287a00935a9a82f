use kurbo::{Point, Vec2};

use crate::gauge::features::Frame;
use crate::gauge::steel::outward;

/// A place of the outer edge, as one walks from the left heel corner over the toe to the right
/// one.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Station {
    /// The place, in mm on the plane of the ground face.
    pub at: Point,
    /// Into the steel, of length 1.
    pub inward: Vec2,
    /// Length of the edge from the toe, in mm, less than nothing on the left.
    pub along: f64,
    /// The same as a share of the branch, never less than nothing.
    pub share: f64,
}

/// Directions are told over so many mm: further in, they count for more than at the edge.
const DIRECTION: f64 = 3.0;

/// The stations of a closed outer edge in even steps of `spacing` mm, walked from heel to heel.
pub fn walk(outer: &[Point], spacing: f64, frame: &Frame) -> Vec<Station> {
    let out = outward(outer, DIRECTION / spacing);
    let mut ring: Vec<(Point, Vec2)> = outer.iter().copied().zip(out).collect();
    let corner = |way: Vec2| {
        let far = |at: &Point| frame.into_shoe(*at).to_vec2().dot(way);
        let places = outer.iter().map(far).enumerate();
        let best = places.max_by(|one, other| one.1.total_cmp(&other.1));
        best.map_or(0, |(place, _)| place)
    };
    let (left, right) = (corner(Vec2::new(-1.0, 1.0)), corner(Vec2::new(1.0, 1.0)));
    ring.rotate_left(left);
    let count = ring.len();
    let between = (right + count - left) % count.max(1);
    let one: Vec<_> = ring.iter().take(between + 1).copied().collect();
    let back = ring.iter().skip(between).chain(ring.first());
    let other: Vec<_> = back.rev().copied().collect();
    let front = |walk: &[(Point, Vec2)]| {
        let deep = walk.iter().map(|(at, _)| frame.into_shoe(*at).y);
        deep.fold(f64::INFINITY, f64::min)
    };
    let way = if front(&one) < front(&other) {
        one
    } else {
        other
    };
    measured(&way, frame)
}

fn measured(way: &[(Point, Vec2)], frame: &Frame) -> Vec<Station> {
    let mut along = 0.0;
    let mut before = None;
    let lengths: Vec<f64> = way
        .iter()
        .map(|(at, _)| {
            along += before.map_or(0.0, |before: Point| before.distance(*at));
            before = Some(*at);
            along
        })
        .collect();
    let places = way.iter().zip(&lengths);
    let nearest = places.min_by(|one, other| {
        let off = |at: Point| {
            let at = frame.into_shoe(at);
            at.to_vec2().hypot()
        };
        off(one.0.0).total_cmp(&off(other.0.0))
    });
    let toe = nearest.map_or(0.0, |(_, along)| *along);
    way.iter()
        .zip(&lengths)
        .map(|((at, out), length)| {
            let branch = if *length < toe { toe } else { along - toe };
            Station {
                at: *at,
                inward: -*out,
                along: length - toe,
                share: (length - toe).abs() / branch.max(f64::MIN_POSITIVE),
            }
        })
        .collect()
}
