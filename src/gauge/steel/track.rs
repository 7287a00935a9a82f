use kurbo::{Point, Vec2};
use num_traits::AsPrimitive;

use super::clues::{Paper, Row};
use super::led::through;
use super::outline::{in_steps, outward};
use super::pinned::{Pin, told};
use super::strip::Strip;
use super::{blur, weights};
use crate::gauge::view::View;

/// How an edge is followed along a line near it.
#[derive(Debug, Clone, Copy)]
pub struct Pass {
    /// It lies between these offsets from the line, in mm outwards.
    pub range: (f64, f64),
    /// At a toe, which may be bevelled, so many mm deeper too.
    pub bevelled: f64,
    /// From station to station, and from offset to offset, in mm.
    pub spacing: f64,
    /// See `spacing`.
    pub step: f64,
    /// What it costs that an edge moves by one offset from station to station, where the line is
    /// straight.
    pub stiff: f64,
    /// An edge moves by so many offsets from station to station at most.
    pub most: usize,
}

/// The line is smoothed over this first, in mm, so that a crumb of scale or a piece of shadow
/// that it follows leaves less of itself than what it costs to follow it again.
const SMOOTH: f64 = 4.0;
/// Where a line bends as a circle of this radius does, in mm, an edge moves at half the cost: at
/// the corner of a heel smoothing moves the line, and the edge has to come back.
///
/// *Source:* as the costs of each pass, told on rendered photographs of known shoes.
const BENDS: f64 = 10.0;
/// A bend is told over this on either side, in mm.
const BEND: f64 = 2.0;
/// Beyond the range so many mm are looked at, inside and outside.
const MARGIN: (f64, f64) = (6.0, 6.0);
/// Directions out of the line are told over this, in mm.
const DIRECTION: f64 = 1.5;
/// A place that is less likely than this counts as no less likely.
const LEAST: f64 = -12.0;

/// An edge as it was followed.
#[derive(Debug, Clone, PartialEq)]
pub struct Followed {
    /// Its places, in mm on the view's plane.
    pub line: Vec<Point>,
    /// Out of the steel at each.
    pub outward: Vec<Vec2>,
    /// Of each the standard deviation across the line that the picture leaves, in mm.
    pub unsure: Vec<f64>,
    /// Of each the logarithm of how likely it is the edge, among the places that were weighed.
    pub likely: Vec<f64>,
}

/// Follows the upper edge of steel along a closed line near it.
///
/// *Shape:* `is_hole` says that the steel lies outside the line; `pins` are places of this edge
/// that a person put right; `toe` gives for a place how far it is a toe, from nothing to 1.
pub fn follow(
    view: &View<'_>,
    line: &[Point],
    is_hole: bool,
    pass: Pass,
    pins: &[Pin],
    toe: &impl Fn(Point) -> f64,
) -> Followed {
    let line = in_steps(&through(line, pins), pass.spacing);
    let smooth = blur::evened(&line, SMOOTH / pass.spacing);
    let line = in_steps(&smooth, pass.spacing);
    let sign = if is_hole { -1.0 } else { 1.0 };
    let out = outward(&line, f64::max(DIRECTION / pass.spacing, 1.0));
    let stations: Vec<(Point, Vec2)> = line
        .iter()
        .zip(out)
        .map(|(at, out)| (*at, out * sign))
        .collect();
    let deepest = pass.range.0 - pass.bevelled;
    let (first, last) = (deepest - MARGIN.0, pass.range.1 + MARGIN.1);
    let count: usize = (((last - first) / pass.step + 1e-6).floor() + 1.0).as_();
    let offsets: Vec<f64> = (0..count)
        .map(|place| first + pass.step * place as f64)
        .collect();
    let strip = Strip::of(view, &stations, pass.spacing, &offsets, pass.step);
    let paper = Paper::of(&strip);
    let inner: usize = (MARGIN.0 / pass.step).round().as_();
    let outer: usize = (MARGIN.1 / pass.step).round().as_();
    let bevelled: usize = (pass.bevelled / pass.step).round().as_();
    let told = told(&stations, pass.spacing, pins);
    let weighed = offsets.iter().skip(inner);
    let likely: Vec<Vec<f64>> = stations
        .iter()
        .zip(&told)
        .enumerate()
        .map(|(station, ((at, out), told))| {
            let (foot, toe) = (view.foot(*at, *out), toe(*at));
            let row = Row::of(&strip, station, foot, toe, paper);
            // What lies deeper than elsewhere is looked at where it may be the edge.
            let deeper = if toe > 0.0 { 0 } else { bevelled };
            let row = row.map(|row| row.table(inner + deeper..count.saturating_sub(outer)));
            let mut scores = vec![weights::NEVER; deeper];
            scores.extend(row.map_or_else(Vec::new, |table| weights::scores(&table)));
            match told {
                Some(told) => shares(&told.weighed(&scores, weighed.clone().copied())),
                None => shares(&scores),
            }
        })
        .collect();
    let path = path(&likely, &stiffness(&line, pass), pass.most);
    let mut followed = Followed {
        line: Vec::new(),
        outward: Vec::new(),
        unsure: Vec::new(),
        likely: Vec::new(),
    };
    let ways = path.iter().zip(&likely).zip(&told);
    for ((at, out), ((place, row), told)) in stations.iter().zip(ways) {
        let (off, unsure) = peak(row, *place);
        let likely = row.get(*place).copied().unwrap_or(LEAST);
        let found = (pass.step * unsure, likely);
        let (unsure, likely) = told.map_or(found, |told| told.settled(found));
        let offset = deepest + pass.step * (*place as f64 + off);
        followed.line.push(*at + *out * offset);
        followed.outward.push(*out);
        followed.unsure.push(unsure);
        followed.likely.push(likely);
    }
    followed
}

/// The logarithm of how likely each place is the edge, of all of them together 1.
fn shares(scores: &[f32]) -> Vec<f64> {
    let scores = || scores.iter().copied().map(f64::from);
    let most = scores().fold(f64::NEG_INFINITY, f64::max);
    let all = scores().map(|score| (score - most).exp()).sum::<f64>();
    let all = all.ln() + most;
    scores().map(|score| f64::max(score - all, LEAST)).collect()
}

/// For each station of a closed line what it costs that an edge moves by one offset on the way
/// there.
fn stiffness(line: &[Point], pass: Pass) -> Vec<f64> {
    let count = line.len();
    let apart: usize = f64::max((BEND / pass.spacing).round(), 1.0).as_();
    let before = line.iter().cycle().skip(count.saturating_sub(apart));
    let after = line.iter().cycle().skip(apart);
    let around = before.zip(line).zip(after);
    let stiff = around.map(|((before, at), after)| {
        let half = (*after - *before).hypot() / 2.0;
        let bend = (before.to_vec2() + after.to_vec2() - at.to_vec2() * 2.0).hypot();
        pass.stiff / (1.0 + (BENDS * bend / (half * half).max(1e-9)).powi(2))
    });
    stiff.collect()
}

/// The best way round: one place a station, likely each and near the ones beside it.
///
/// *Source:* A. Viterbi, Error bounds for convolutional codes, 1967 (from memory). The line is
/// walked twice, so that its end meets its start.
///
/// *Shape:* `stiff` has for each station what it costs to come there from an offset beside.
fn path(likely: &[Vec<f64>], stiff: &[f64], most: usize) -> Vec<usize> {
    let count = likely.len();
    let mut best = likely.first().cloned().unwrap_or_default();
    let mut from: Vec<Vec<u16>> = Vec::new();
    let stations = likely.iter().zip(stiff).cycle().skip(1);
    for (row, stiff) in stations.take(2 * count.max(1) - 1) {
        let (next, came) = onwards(&best, row, *stiff, most);
        best = next;
        from.push(came);
    }
    let ends = best.iter().enumerate();
    let mut at = ends
        .max_by(|one, other| one.1.total_cmp(other.1))
        .map_or(0, |(place, _)| place);
    let mut path = vec![at];
    for came in from.iter().rev() {
        at = came.get(at).map_or(at, |came| usize::from(*came));
        path.push(at);
    }
    path.reverse();
    let half = count / 2;
    let second = path.iter().skip(count).take(half);
    let first = path.iter().take(count).skip(half);
    second.chain(first).copied().collect()
}

/// From the worth of the best ways to each place of a station to those of the next one, and by
/// which place each of them comes: of two alike the later one.
#[cfg_attr(target_arch = "wasm32", target_feature(enable = "simd128"))]
fn onwards(best: &[f64], likely: &[f64], stiff: f64, most: usize) -> (Vec<f64>, Vec<u16>) {
    let mut worth = vec![f64::NEG_INFINITY; likely.len()];
    let mut came: Vec<u16> = vec![0; likely.len()];
    // One shift after the other: so all places of a station are weighed at once.
    for shift in 0..=2 * most {
        let apart = shift as f64 - most as f64;
        let cost = stiff * apart * apart;
        let (later, earlier) = (shift.saturating_sub(most), most.saturating_sub(shift));
        let before = best.iter().zip(0_u16..).skip(later);
        let places = worth.iter_mut().zip(&mut came).skip(earlier);
        for ((worth, came), (value, before)) in places.zip(before) {
            let way = value - cost;
            if way >= *worth {
                (*worth, *came) = (way, before);
            }
        }
    }
    for (worth, value) in worth.iter_mut().zip(likely) {
        *worth += value;
    }
    (worth, came)
}

/// How far from a place its peak lies, and how wide that is, both in places.
fn peak(likely: &[f64], place: usize) -> (f64, f64) {
    let near = place.clamp(1, likely.len().saturating_sub(2).max(1));
    let around = near
        .checked_sub(1)
        .and_then(|from| likely.get(from..from + 3));
    let Some([before, at, after]) = around else {
        return (0.0, 1.0);
    };
    let bend = before - 2.0 * at + after;
    if bend > -1e-6 {
        return (0.0, 1.0);
    }
    let off = (0.5 * (before - after) / bend).clamp(-1.0, 1.0);
    (off, (-1.0 / bend).sqrt())
}
