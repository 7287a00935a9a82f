//! A line that is led through places that a person marked.

use kurbo::{CubicBez, ParamCurve as _, Point, Vec2};

use super::outline::{in_steps, outward};
use super::pinned::Pin;

/// From station to station of a line that is led, in mm.
const STEP: f64 = 0.5;
/// Between places nearer to each other than this, in mm, the edge runs from the one to the other;
/// a judgement, no source.
const NEIGHBOURS: f64 = 25.0;
/// Where a line turns by more than this from one place to the next, as a cosine, a corner lies
/// between them: 50 degrees.
const CORNER: f64 = 0.643;
/// The way along the line between them is no longer than double the straight one and this, in mm.
const ROUND: f64 = 4.0;
/// Directions of a line are told over this there, in mm.
const DIRECTION: f64 = 4.0;
/// An arc through two places alone bends no more than a circle of this radius, in mm.
const TIGHTEST: f64 = 40.0;
/// A line comes back to its old way over this, in mm, or over so many times the way that it is
/// led off, whichever is more: told on rendered photographs of known shoes with shadows painted
/// over them.
const FADE: (f64, f64) = (8.0, 1.0);

/// A place by hand on a closed line of stations.
#[derive(Debug, Clone, Copy)]
pub struct Stop {
    /// The station that it lies nearest to.
    pub station: usize,
    /// The place.
    pub pin: Pin,
    /// The next stop is so many stations on.
    pub on: usize,
    /// Whether the edge runs from here to the next stop without a corner.
    pub is_joined: bool,
    /// Square to the line there.
    out: Vec2,
}

/// Places by hand in order round a closed line whose stations are so far apart.
pub fn stops(line: &[Point], spacing: f64, pins: &[Pin]) -> Vec<Stop> {
    if pins.is_empty() {
        return Vec::new();
    }
    let out = outward(line, f64::max(DIRECTION / spacing, 1.0));
    let stop = |pin: &Pin| {
        let far = |at: &Point| at.distance_squared(pin.at);
        let places = line.iter().zip(&out).enumerate();
        let nearest = places.min_by(|a, b| far(a.1.0).total_cmp(&far(b.1.0)));
        nearest.map(|(station, (_, out))| Stop {
            station,
            pin: *pin,
            on: line.len(),
            is_joined: false,
            out: *out,
        })
    };
    let mut stops: Vec<Stop> = pins.iter().filter_map(stop).collect();
    stops.sort_by_key(|stop| stop.station);
    stops.dedup_by_key(|stop| stop.station);
    let nexts = stops.clone();
    for (stop, next) in stops.iter_mut().zip(nexts.iter().cycle().skip(1)) {
        let on = (next.station + line.len() - stop.station) % line.len();
        if on > 0 {
            let chord = stop.pin.at.distance(next.pin.at);
            stop.on = on;
            stop.is_joined = chord < NEIGHBOURS
                && spacing * on as f64 <= 2.0 * chord + ROUND
                && stop.out.dot(next.out) > CORNER;
        }
    }
    stops
}

/// A closed line led through places near it: between neighbours on the arc through them, beyond
/// them back to its own way.
pub fn through(line: &[Point], pins: &[Pin]) -> Vec<Point> {
    if pins.is_empty() {
        return line.to_vec();
    }
    let mut line = in_steps(line, STEP);
    let stops = stops(&line, STEP, pins);
    let old = line.clone();
    let count = old.len().max(1);
    let led = |stop: &Stop| {
        let at = old.get(stop.station).copied();
        at.map_or(Vec2::ZERO, |at| stop.pin.at - at)
    };
    for (place, stop) in stops.iter().enumerate() {
        let Some(next) = stops.get((place + 1) % stops.len()) else {
            continue;
        };
        let arc = stop.is_joined.then(|| arc(&stops, place)).flatten();
        let (by, by_next) = (led(stop), led(next));
        for step in 0..stop.on {
            let share = step as f64 / stop.on as f64;
            let Some(at) = line.get_mut((stop.station + step) % count) else {
                continue;
            };
            *at = arc.map_or_else(
                || {
                    let here = left_of(by, step);
                    let there = left_of(by_next, stop.on - step);
                    *at + (by * here + by_next * there) / (here + there).max(1.0)
                },
                |arc| arc.eval(share),
            );
        }
    }
    line
}

/// What is left of a way that a line is led off, so many steps from there.
fn left_of(by: Vec2, steps: usize) -> f64 {
    let (least, times) = FADE;
    let share = steps as f64 * STEP / f64::max(least, times * by.hypot());
    0.5 * (1.0 + (std::f64::consts::PI * share.min(1.0)).cos())
}

/// The curve from a stop to the next, as near to a circle as goes.
fn arc(stops: &[Stop], place: usize) -> Option<CubicBez> {
    let count = stops.len();
    let at = |place: usize| stops.get(place % count);
    let (before, here, next) = (at(place + count - 1)?, at(place)?, at(place + 1)?);
    let chord = next.pin.at - here.pin.at;
    let along = chord.normalize();
    let mirrored = |way: Vec2| along * (2.0 * way.dot(along)) - way;
    let first = before.is_joined && count > 2;
    let first = first.then(|| tangent(before.pin.at, here.pin.at, next.pin.at));
    let last = next.is_joined && count > 2;
    let last = last.then_some(at(place + 2)?);
    let last = last.map(|after| tangent(here.pin.at, next.pin.at, after.pin.at));
    let (first, last) = match (first, last) {
        (Some(first), Some(last)) => (first, last),
        (Some(first), None) => (first, mirrored(first)),
        (None, Some(last)) => (mirrored(last), last),
        // The line tells how it bends.
        (None, None) => {
            let turn = here.out.cross(next.out).clamp(-1.0, 1.0).asin() / 2.0;
            let most = chord.hypot() / (2.0 * TIGHTEST);
            let turn = turn.clamp(-most, most);
            let first = Vec2::from_angle(along.angle() - turn);
            (first, mirrored(first))
        }
    };
    let third = chord.hypot() / 3.0;
    Some(CubicBez::new(
        here.pin.at,
        here.pin.at + first * third,
        next.pin.at - last * third,
        next.pin.at,
    ))
}

/// How a circle through three places runs at the middle one.
fn tangent(before: Point, at: Point, after: Point) -> Vec2 {
    let (one, other) = (at - before, after - at);
    let way = one.normalize() * other.hypot() + other.normalize() * one.hypot();
    way.normalize()
}
