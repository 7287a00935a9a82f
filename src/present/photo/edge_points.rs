//! Places of the edge that somebody puts right over a photo.

use super::stretch::path;
use crate::gauge::{Dot, Shown};

/// Doubtful places nearer to each other than this share of the photo's longer side are one
/// stretch: about 3 mm of a sheet that fills it.
const APART: f64 = 0.01;
/// No point is offered so near to another one, as a share of that side.
const NEAR: f64 = 0.02;

/// The doubtful stretches of the edges, in pixels.
fn stretches(shown: &Shown) -> Vec<Vec<Dot>> {
    let least = share_of(shown.size, APART);
    let mut runs: Vec<Vec<Dot>> = Vec::new();
    for at in &shown.unclear {
        let run = runs.last_mut();
        match run.filter(|run| run.last().is_some_and(|last| apart(*last, *at) < least)) {
            Some(run) => run.push(*at),
            None => runs.push(vec![*at]),
        }
    }
    runs
}

/// The same as one path in SVG's notation.
pub fn doubtful_path(shown: &Shown) -> String {
    let runs = stretches(shown).into_iter();
    runs.map(|run| path(run, 1)).collect()
}

/// Where the next point is offered: in the middle of the largest doubtful stretch, or at the toe,
/// or where the outer edge is farthest from all points; of a photo that is not measured, in its
/// middle.
pub fn next_edge_point(shown: Option<&Shown>, size: (usize, usize), points: &[Dot]) -> Dot {
    let middle = (size.0 as f64 / 2.0, size.1 as f64 / 2.0);
    let Some(shown) = shown else {
        return middle;
    };
    let is_free = |at: &Dot| way_to(points, *at) > share_of(size, NEAR);
    let mut runs = stretches(shown);
    runs.sort_by_key(|run| std::cmp::Reverse(run.len()));
    let middles = runs.iter().filter_map(|run| run.get(run.len() / 2));
    let toe = shown.axis.first().and_then(|before| {
        let outer = shown.outer.iter();
        outer.min_by(|a, b| apart(**a, *before).total_cmp(&apart(**b, *before)))
    });
    let farthest = || {
        let outer = shown.outer.iter();
        outer.max_by(|a, b| way_to(points, **a).total_cmp(&way_to(points, **b)))
    };
    let offered = middles.chain(toe).find(|at| is_free(at));
    offered.or_else(farthest).copied().unwrap_or(middle)
}

/// What a point is called.
pub fn edge_point_name(place: usize, count: usize) -> String {
    format!("Point {} of {count} on the edge", place + 1)
}

/// For the note of a photo; empty where none was put right.
pub(super) fn edge_note(count: usize) -> String {
    match count {
        0 => String::new(),
        1 => ", 1 place of the edge put right by hand".to_owned(),
        count => format!(", {count} places of the edge put right by hand"),
    }
}

fn way_to(points: &[Dot], at: Dot) -> f64 {
    let each = points.iter().map(|point| apart(*point, at));
    each.fold(f64::INFINITY, f64::min)
}

fn apart(one: Dot, other: Dot) -> f64 {
    (one.0 - other.0).hypot(one.1 - other.1)
}

fn share_of((columns, rows): (usize, usize), share: f64) -> f64 {
    share * columns.max(rows) as f64
}
