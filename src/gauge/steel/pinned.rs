use kurbo::{Point, Vec2};
use num_traits::AsPrimitive;

use super::led::stops;
use super::weights::NEVER;
use crate::gauge::sheet::BY_HAND;
use crate::gauge::view::View;

/// A place of the edge that a person put right.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pin {
    /// Where, in mm on the view's plane.
    pub at: Point,
    /// How far off it may be, as a standard deviation in mm.
    pub unsure: f64,
}

/// No place that is put right by hand is surer than this, in mm; a judgement, no source.
const SUREST: f64 = 0.3;
/// Between two neighbours the edge leaves the arc through them by no more than this, in mm; a
/// judgement, no source.
const WITHIN: f64 = 0.45;
/// So near to a place along the edge, in mm, the picture does not count, and up to the second
/// distance less than it says.
const NEAR: (f64, f64) = (0.75, 4.0);
/// The logarithm of how likely the edge is where a place by hand settles it.
const SETTLED: f64 = -1.0;

/// A place that is farther than this from every edge, in mm, is none of one; a judgement, no source.
const STRAY: f64 = 40.0;

/// Pixels that a person marked, as places on the view's plane; without those that are not on it.
pub fn pins(view: &View<'_>, pixels: &[Point]) -> Vec<Pin> {
    let meets = |pixel: Point| view.camera.meets(pixel, view.height);
    let each = pixels.iter().filter_map(|pixel| {
        let at = meets(*pixel).filter(|at| at.is_finite())?;
        let steps = [Vec2::new(1.0, 0.0), Vec2::new(0.0, 1.0)];
        let apart = steps.map(|step| meets(*pixel + step).map(|next| next.distance(at)));
        let widest = apart.into_iter().flatten().fold(0.0, f64::max);
        Some(Pin {
            at,
            unsure: f64::max(BY_HAND * widest, SUREST),
        })
    });
    each.collect()
}

/// The places of each line: each belongs to the line that it lies nearest to.
///
/// # Errors
///
/// The first place that lies far from all lines, such as a finger leaves that only held the phone.
pub fn of_lines(pins: &[Pin], lines: &[Vec<Point>]) -> Result<Vec<Vec<Pin>>, Pin> {
    let mut of_each = vec![Vec::new(); lines.len()];
    for pin in pins {
        let far = lines.iter().map(|line| {
            let each = line.iter().map(|at| at.distance_squared(pin.at));
            each.fold(f64::INFINITY, f64::min)
        });
        let nearest = of_each.iter_mut().zip(far);
        let nearest = nearest.min_by(|a, b| a.1.total_cmp(&b.1));
        match nearest {
            Some((own, far)) if far < STRAY * STRAY => own.push(*pin),
            _ => return Err(*pin),
        }
    }
    Ok(of_each)
}

/// What places by hand say of one station of a line; lengths in mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Told {
    /// The offset from the line at which the edge lies.
    offset: f64,
    /// How far off that may be there, as a standard deviation.
    unsure: f64,
    /// How far along the line the nearest place is.
    away: f64,
    /// Whether the station lies between two neighbours.
    is_between: bool,
}

impl Told {
    /// How likely the edge is at each of these offsets, by the picture and the places together.
    pub fn weighed(&self, scores: &[f32], offsets: impl Iterator<Item = f64>) -> Vec<f32> {
        let (alone, near) = NEAR;
        // The further away a place is, the less it says.
        let share = ((self.away - alone) / (near - alone)).clamp(0.0, 1.0);
        let spread = self.unsure + share * (WITHIN - self.unsure).max(0.0);
        let each = scores.iter().zip(offsets).map(|(score, offset)| {
            let off = offset - self.offset;
            let pull = -0.5 * (off / spread).powi(2);
            let told = if self.away <= alone {
                pull
            } else if self.is_between && off.abs() > WITHIN.max(self.unsure) {
                f64::from(NEVER) + pull
            } else if self.away < near {
                f64::from(*score) + pull
            } else {
                f64::from(*score)
            };
            told.as_()
        });
        each.collect()
    }

    /// How sure and how likely a place of the edge is that was found there.
    pub fn settled(&self, (unsure, likely): (f64, f64)) -> (f64, f64) {
        (unsure.max(self.unsure), likely.max(SETTLED))
    }
}

/// What places by hand say of each station of a closed line, if anything.
///
/// *Shape:* `stations` with their directions out of the steel, so far apart.
pub fn told(stations: &[(Point, Vec2)], spacing: f64, pins: &[Pin]) -> Vec<Option<Told>> {
    let mut all = vec![None; stations.len()];
    let line: Vec<Point> = stations.iter().map(|(at, _)| *at).collect();
    let stops = stops(&line, spacing, pins);
    let offset = |station: usize, pin: Pin| {
        let station = stations.get(station);
        station.map_or(0.0, |(at, out)| (pin.at - *at).dot(*out))
    };
    let reach: usize = (NEAR.1 / spacing).as_();
    for (stop, next) in stops.iter().zip(stops.iter().cycle().skip(1)) {
        let (here, there) = (
            offset(stop.station, stop.pin),
            offset(next.station, next.pin),
        );
        let on = stop.on;
        // Without a neighbour, what lies near to each of the two.
        for step in 0..on {
            let share = step as f64 / on as f64;
            let is_first = 2 * step < on;
            let steps = if is_first { step } else { on - step };
            if !stop.is_joined && steps > reach {
                continue;
            }
            let of_nearer = if is_first { here } else { there };
            let told = Told {
                offset: if stop.is_joined {
                    here + share * (there - here)
                } else {
                    of_nearer
                },
                unsure: stop.pin.unsure.max(next.pin.unsure),
                away: steps as f64 * spacing,
                is_between: stop.is_joined,
            };
            if let Some(slot) = all.get_mut((stop.station + step) % line.len().max(1)) {
                *slot = Some(told);
            }
        }
    }
    all
}
