use kurbo::Point;
use num_traits::AsPrimitive;

use super::middle::{Place, STEP};
use super::patch::patch;
use super::strip::{ASIDE, Strip};
use super::weights::score;

/// A hole that is seen.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spotted {
    /// Its centre, in mm on the plane of the ground face: holes go straight down.
    pub centre: Point,
    /// The standard deviation each way that the picture leaves, in mm.
    pub unsure: f64,
}

/// So many steps to either side of the groove's middle a hole's centre may lie: 1.25 mm.
const OFF: usize = 5;
/// What one hole shows lies within so many steps along: 1.5 mm.
const NEAR: usize = 6;
/// As near to a groove's end as this many steps, 6 mm, there is no hole.
const ENDS: usize = 24;
/// From hole to hole there are so many steps at least: 11 mm.
const APART: usize = 44;
/// Places that are weighed for one hole; the logarithm of their number.
const PLACES: f64 = 4.6;
/// What is told by the first is a hole wherever it is, and by the second if another one stands
/// in a row with it at all.
///
/// *Source:* told on rendered photographs of known shoes.
const ALONE: f64 = 5.0;
const PLAIN: f64 = 2.9;
/// What is told by this is one if another stands as near to it as is usual.
const FAINT: f64 = 1.8;
/// Steps from hole to hole in a row: at least, usually at most, and at most; 13, 21 and 25 mm.
///
/// *Source:* common practice, no source.
const ROW: (usize, usize, usize) = (52, 84, 100);

/// The centre of a hole is as unsure as the places that are weighed for it spread, so many times,
/// and anyhow by so many mm.
///
/// *Source:* told on rendered photographs of known shoes, so that of x and of y, and of both
/// together, 92 to 98 in a hundred lie within 1.96 of it.
const WIDER: f64 = 1.2;
const ANYHOW: f64 = 0.1;

/// Centroid of places, with weights.
struct Peak {
    along: f64,
    across: f64,
    square: f64,
}

/// The holes that are plainly seen along a groove, in order.
pub fn pick(strip: &Strip, places: &[Place]) -> Vec<Spotted> {
    let weights: Vec<Vec<f64>> = (0..places.len())
        .map(|place| {
            let across = ASIDE - OFF..=ASIDE + OFF;
            let scores = across.map(|across| score(&patch(strip, place, across)));
            scores.map(f64::exp).collect()
        })
        .collect();
    let mut left: Vec<f64> = (0..places.len())
        .map(|place| {
            let is_inside = place >= ENDS && place + ENDS < places.len();
            if is_inside {
                window(&weights, place).flatten().sum::<f64>().ln() - PLACES
            } else {
                f64::NEG_INFINITY
            }
        })
        .collect();
    let mut found = Vec::new();
    loop {
        let best = left.iter().copied().enumerate();
        let best = best.max_by(|one, other| one.1.total_cmp(&other.1));
        let Some((place, told)) = best.filter(|(_, told)| *told > FAINT) else {
            break;
        };
        found.push((place, told));
        let near = left.iter_mut().enumerate();
        for (_, told) in near.filter(|(other, _)| other.abs_diff(place) < APART) {
            *told = f64::NEG_INFINITY;
        }
    }
    found.sort_by_key(|(place, _)| *place);
    let holes = in_row(&found).into_iter();
    holes
        .filter_map(|place| spotted(places, &peak(&weights, place)))
        .collect()
}

/// Of places with what tells a hole there, in order, those that are plain or stand in a row.
fn in_row(found: &[(usize, f64)]) -> Vec<usize> {
    let (least, usual, most) = ROW;
    let has_other = |place: usize, most: usize| {
        let mut aparts = found.iter().map(|(other, _)| other.abs_diff(place));
        aparts.any(|apart| apart >= least && apart <= most)
    };
    let kept = found.iter().filter(|(place, told)| {
        *told > ALONE || has_other(*place, if *told > PLAIN { most } else { usual })
    });
    kept.map(|(place, _)| *place).collect()
}

/// The rows about a place.
fn window(weights: &[Vec<f64>], place: usize) -> impl Iterator<Item = &Vec<f64>> {
    let from = place.saturating_sub(NEAR);
    weights.iter().skip(from).take(place + NEAR + 1 - from)
}

/// Where the weights about a place have their middle, looked for anew from there.
fn peak(weights: &[Vec<f64>], place: usize) -> Peak {
    let mut place = place;
    let mut peak = centroid(weights, place);
    for _ in 0..3 {
        place = peak.along.round().max(0.0).as_();
        peak = centroid(weights, place);
    }
    peak
}

fn centroid(weights: &[Vec<f64>], place: usize) -> Peak {
    let from = place.saturating_sub(NEAR);
    let cells = || {
        let rows = window(weights, place).enumerate();
        rows.flat_map(move |(step, row)| {
            let along = (from + step) as f64;
            let row = row.iter().enumerate();
            row.map(move |(across, weight)| (along, across as f64 - OFF as f64, *weight))
        })
    };
    let all = cells().map(|(_, _, weight)| weight).sum::<f64>();
    let mean = |of: &dyn Fn(f64, f64) -> f64| {
        let each = cells().map(|(along, across, weight)| of(along, across) * weight);
        each.sum::<f64>() / all
    };
    let (along, across) = (mean(&|along, _| along), mean(&|_, across| across));
    Peak {
        along,
        across,
        square: mean(&|x, y| (x - along).powi(2) + (y - across).powi(2)),
    }
}

fn spotted(places: &[Place], peak: &Peak) -> Option<Spotted> {
    let near: usize = peak.along.round().max(0.0).as_();
    let place = places.get(near)?;
    let off = place.along * (peak.along - near as f64) + place.inward * peak.across;
    Some(Spotted {
        centre: place.at + off * STEP,
        unsure: (WIDER * STEP * (peak.square / 2.0).sqrt()).hypot(ANYHOW),
    })
}
