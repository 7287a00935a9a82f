use kurbo::{Point, Vec2};

use super::check::{Unseen, view};
use super::edges::{Edge, Search, edges};
use super::fit::{Before, Seen, fit, residuals};
use super::sides::with_sides_off;
use super::size::Sheet;
use super::start;
use crate::gauge::picture::{Picture, brightness};

/// A place that is marked by hand lies off by this, in pixels; a judgement, no source.
pub const BY_HAND: f64 = 1.5;
/// Edges are looked for within this of where the marks put a side, in such uncertainties.
const WITHIN: f64 = 4.0;
/// Each mark counts as so many edges, which share their error.
const TIMES: usize = 4;
/// Where so much of every side is seen, the edges tell the camera better than the marks.
const ENOUGH: f64 = 0.35;

/// The camera by corners that a person marked, in order round the sheet, in pixels. Where the
/// sides between them are seen, those tell it more finely; a corner may be covered.
///
/// *Errors:* what of the sheet is not seen.
pub fn see_marked(
    picture: &Picture,
    sheet: Sheet,
    before: &Before,
    corners: [Point; 4],
) -> Result<Seen, Unseen> {
    let marks = Before {
        least_spread: BY_HAND,
        ..*before
    };
    let corners = clockwise(corners);
    let (start, way) = start(sheet, corners, before).ok_or(Unseen::Sheet)?;
    let by_hand = as_edges(sheet, way);
    let rough = fit(&start, sheet, &by_hand, &marks).ok_or(Unseen::Sheet)?;
    let light = |at: Point| picture.light(at).map(brightness);
    let search = Search {
        reach: WITHIN * BY_HAND,
        spacing: 1.0,
        step: 0.5,
    };
    let found = edges(&light, &rough.camera, sheet, search);
    let fine = fit(&rough.camera, sheet, &found, before);
    let fine = fine.filter(|seen| is_enough(sheet, seen, &found));
    let seen = match fine {
        Some(seen) => with_sides_off(&seen, sheet, &found),
        None => rough,
    };
    view(&seen)?;
    Ok(seen)
}

/// A mark lies on both sides that meet there.
fn as_edges(sheet: Sheet, marked: [Point; 4]) -> Vec<Edge> {
    let corners = sheet.corners().into_iter().zip(marked).enumerate();
    let both = corners.flat_map(|(place, (on_sheet, at))| {
        [place, (place + 3) % 4].map(|side| Edge {
            side,
            at,
            on_sheet,
            step: 1.0,
        })
    });
    both.flat_map(|edge| std::iter::repeat_n(edge, TIMES))
        .collect()
}

/// Whether the edges tell of all four sides, and lie where the camera puts them.
fn is_enough(sheet: Sheet, seen: &Seen, edges: &[Edge]) -> bool {
    let Some(off) = residuals(&seen.camera, sheet, edges) else {
        return false;
    };
    let good: Vec<&Edge> = edges
        .iter()
        .zip(off)
        .filter(|(_, off)| off.abs() < BY_HAND)
        .map(|(edge, _)| edge)
        .collect();
    let corners = sheet.corners();
    let ends = corners.iter().zip(corners.iter().cycle().skip(1));
    ends.enumerate().all(|(side, (from, to))| {
        let count = good.iter().filter(|edge| edge.side == side).count();
        let long = (*to - *from).hypot() - 2.0 * sheet.about().rounding;
        count as f64 >= ENOUGH * long
    })
}

/// Corners as they follow each other in a picture whose y runs down, however they were marked.
fn clockwise(marked: [Point; 4]) -> [Point; 4] {
    let sum: Vec2 = marked.iter().map(|at| at.to_vec2()).sum();
    let middle = (sum / 4.0).to_point();
    let mut round = marked;
    round.sort_by(|one, other| {
        let angle = |at: &Point| (*at - middle).atan2();
        angle(one).total_cmp(&angle(other))
    });
    round
}
