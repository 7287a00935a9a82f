use kurbo::{Point, Vec2};
use nalgebra::Point3;
use num_traits::AsPrimitive;

use super::size::Sheet;
use crate::gauge::camera::Camera;

/// Where an edge of the sheet was seen.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Edge {
    /// The side, counted from the first corner on.
    pub side: usize,
    /// Its place in the picture, in pixels.
    pub at: Point,
    /// Where it should lie on the sheet, in mm.
    pub on_sheet: Point,
    /// The share of the paper's light that is lost across it.
    pub step: f64,
}

/// How edges are looked for.
#[derive(Debug, Clone, Copy)]
pub struct Search {
    /// So many pixels each way from where a side should be.
    pub reach: f64,
    /// From place to place along a side, in mm.
    pub spacing: f64,
    /// One step across a side, in pixels; light is compared over four of them.
    pub step: f64,
}

/// An edge loses at least this share of the paper's light.
const LEAST_STEP: f64 = 0.08;
/// Steps over which the light on either side is taken.
const PLATEAU: usize = 4;
/// Steps on either side of an edge that its blur takes.
const BLUR: usize = 3;
/// Where more of a side than this loses most light further in than where it loses the largest
/// share, a strip of something darker runs along it, such as a board, and something dark beyond.
const BOARD: f64 = 0.6;
/// Lines side by side whose light is averaged.
const LINES: [f64; 5] = [-2.0, -1.0, 0.0, 1.0, 2.0];

/// Edges along the sides of the sheet, near where a camera would see them.
///
/// *Shape:* `light` gives the brightness of a pixel's place, nothing outside the picture.
pub fn edges(
    light: &impl Fn(Point) -> Option<f32>,
    camera: &Camera,
    sheet: Sheet,
    search: Search,
) -> Vec<Edge> {
    let corners = sheet.corners();
    let ends = corners.iter().zip(corners.iter().cycle().skip(1));
    let mut found = Vec::new();
    for (side, (from, to)) in ends.enumerate() {
        let mut along = Vec::new();
        let long = (*to - *from).hypot();
        let count: usize = (long / search.spacing).as_();
        for place in 0..count {
            let share = (place as f64 + 0.5) / count as f64;
            // Where corners are rounded no side is straight.
            if share.min(1.0 - share) * long < sheet.about().rounding {
                continue;
            }
            let on_sheet = from.lerp(*to, share);
            let way = (sheet, *to - *from);
            along.extend(edge(light, camera, search, side, on_sheet, way));
        }
        let further_in = along.iter().filter(|both| both.is_further_in).count();
        let is_board = further_in as f64 > BOARD * along.len() as f64;
        found.extend(along.into_iter().map(|both| {
            if is_board {
                both.by_light
            } else {
                both.by_share
            }
        }));
    }
    found
}

/// Where an edge of the sheet may be: where the largest share of the light is lost, which a shadow
/// that lies across the edge does not move; and where most light is.
struct Either {
    by_share: Edge,
    by_light: Edge,
    is_further_in: bool,
}

fn edge(
    light: &impl Fn(Point) -> Option<f32>,
    camera: &Camera,
    search: Search,
    side: usize,
    on_sheet: Point,
    (sheet, along): (Sheet, Vec2),
) -> Option<Either> {
    let see = |at: Point| camera.project(Point3::new(at.x, at.y, 0.0));
    let at = see(on_sheet)?;
    // Clockwise as seen from above, with y up, the inside lies to the right.
    let inward = Vec2::new(along.y, -along.x).normalize();
    let inward = (see(on_sheet + inward)? - at).normalize();
    let beside = Vec2::new(-inward.y, inward.x);
    let half: usize = (search.reach / search.step).as_();
    let half = half + PLATEAU + BLUR;
    let offset = |place: usize| (place as f64 - half as f64) * search.step;
    let mut profile: Vec<f64> = (0..=2 * half)
        .map(|place| {
            let middle = at + inward * offset(place);
            let seen = LINES.map(|line| light(middle + beside * (line * search.step)));
            let (mut sum, mut count) = (0.0, 0.0);
            for value in seen.into_iter().flatten() {
                sum += f64::from(value);
                count += 1.0;
            }
            sum / count
        })
        .collect();
    // Where it is darker than the ground light and dark change places.
    if sheet.about().may_be_dark {
        let turned = turned(&profile);
        let step = |profile: &[f64]| steepest(profile).map_or(0.0, |(_, step)| step);
        if step(&turned) > step(&profile) {
            profile = turned;
        }
    }
    let edge = |(middle, step): (usize, f64)| {
        let place = crossing(&profile, middle)?;
        let offset = (place - half as f64) * search.step;
        let at = at + inward * offset;
        let edge = Edge {
            side,
            at,
            on_sheet,
            step,
        };
        Some((edge, place))
    };
    let (by_share, place) = edge(steepest(&profile)?)?;
    let most = largest(&profile).and_then(edge);
    let (by_light, inner) = most.unwrap_or((by_share, place));
    Some(Either {
        by_share,
        by_light,
        is_further_in: inner > place + BLUR as f64,
    })
}

/// The profile with its brightest and its darkest light changed.
fn turned(profile: &[f64]) -> Vec<f64> {
    let most = profile.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    let least = profile.iter().copied().fold(f64::INFINITY, f64::min);
    profile.iter().map(|value| most + least - value).collect()
}

/// Where the largest share of the light is lost from inside out, and what share.
fn steepest(profile: &[f64]) -> Option<(usize, f64)> {
    best(profile, |_, share| share)
}

/// Where most of the light is lost from inside out, and what share.
fn largest(profile: &[f64]) -> Option<(usize, f64)> {
    best(profile, |lost, _| lost)
}

/// Where the light that is lost, or the share of it, counts most, and the share.
fn best(profile: &[f64], of: impl Fn(f64, f64) -> f64) -> Option<(usize, f64)> {
    let wide = 2 * PLATEAU;
    let steps = profile.windows(wide).enumerate().map(|(start, window)| {
        let (outside, inside) = window.split_at(PLATEAU);
        let (outside, inside) = (mean(outside), mean(inside));
        let lost = inside - outside;
        (start + PLATEAU, lost / inside, lost)
    });
    let best = steps
        .filter(|(_, share, _)| share.is_finite())
        .max_by(|one, other| of(one.2, one.1).total_cmp(&of(other.2, other.1)));
    let best = best.map(|(place, share, _)| (place, share));
    best.filter(|(_, share)| *share > LEAST_STEP)
}

/// Where the profile crosses the level half way between both sides of an edge.
///
/// In light, a blur that is alike both ways leaves that place where it was.
fn crossing(profile: &[f64], near: usize) -> Option<f64> {
    let inside = mean(profile.get(near + BLUR..near + BLUR + PLATEAU)?);
    let end = near.checked_sub(BLUR)?;
    let outside = mean(profile.get(end.checked_sub(PLATEAU)?..end)?);
    let level = (inside + outside) / 2.0;
    let places = profile.windows(2).enumerate().filter_map(|(place, pair)| {
        let [below, above] = pair else { return None };
        let crosses = *below <= level && *above > level;
        crosses.then(|| place as f64 + (level - below) / (above - below))
    });
    let distance = |place: &f64| (place - (near as f64 - 0.5)).abs();
    let nearest = places.min_by(|one, other| distance(one).total_cmp(&distance(other)))?;
    (distance(&nearest) <= BLUR as f64).then_some(nearest)
}

fn mean(values: &[f64]) -> f64 {
    values.iter().sum::<f64>() / values.len() as f64
}
