use kurbo::Point;
use nalgebra::{SMatrix, SVector};
use num_traits::AsPrimitive;

use super::blur;
use crate::gauge::grid::Grid;
use crate::gauge::ground::Ground;
use crate::gauge::mask;
use crate::gauge::picture::brightness;
use crate::gauge::view::View;

/// Side of a cell in mm.
const CELL: f64 = 0.5;
/// Light that is added before logarithms, so that noise in the dark stays small.
pub const DARK: f32 = 0.012;
/// Steel is darker than paper by this logarithm, or rougher than this.
const DARKER: f32 = -1.2;
const ROUGHER: f32 = 0.09;
/// Standard deviation in cells of what counts as even.
const EVEN: f64 = 1.5;
/// Cells by which half gaps are closed and half threads cut, first and last.
const STEPS: [(usize, usize); 2] = [(4, 4), (8, 9)];
/// Cells by which half gaps are closed to what is no shoe.
const GAPS: usize = 4;
/// A shoe is longer round than this, in mm, a foal's too; common practice, no source. What is
/// shorter is dirt, or nothing but noise.
const LEAST_ROUND: f64 = 150.0;
/// A hole in the shoe is at least this share as long round as the shoe.
const LEAST_HOLE: f64 = 0.3;

/// Lines round what is rough or dark on the ground, in mm on the view's plane: outer one first,
/// then the hole of a bar shoe. A guide only: shadows with a hard edge are part of it.
pub fn lines(view: &View<'_>, ground: &Ground) -> Vec<Vec<Point>> {
    let bounds = ground.bounds();
    let cells = |long: f64| -> usize { (long / CELL).as_() };
    let place = |x: f64, y: f64| Point::new(bounds.x0 + x * CELL, bounds.y1 - y * CELL);
    let seen = Grid::made(cells(bounds.width()), cells(bounds.height()), |x, y| {
        let at = place(x as f64, y as f64);
        let light = ground.stand_in(at).and_then(|at| view.light(at));
        light.map(|light| (brightness(light) + DARK).ln())
    });
    let levels = level(&seen);
    let rough = rough(&levels);
    let mut steel = Grid::made(seen.width(), seen.height(), |x, y| {
        let is_steel = levels.get(x, y).is_some_and(|level| level < DARKER)
            || rough.get(x, y).is_some_and(|rough| rough > ROUGHER);
        is_steel && !ground.is_covered(place(x as f64, y as f64))
    });
    if ground.is_open() {
        let cells = (0..seen.height()).flat_map(|y| (0..seen.width()).map(move |x| (x, y)));
        let others = cells.filter(|(x, y)| {
            // Beside a cell that is not looked at, and where something else lies.
            let is_edge = seen.beside(*x, *y).count() < 4
                || seen
                    .beside(*x, *y)
                    .any(|(x, y)| seen.get(x, y).flatten().is_none());
            is_edge || ground.is_taken(place(*x as f64, *y as f64))
        });
        steel = mask::without(&mask::closed(&steel, GAPS), others);
    }
    for (gaps, threads) in STEPS {
        steel = mask::largest(&mask::opened(&mask::closed(&steel, gaps), threads));
    }
    let lines = mask::borders(&steel);
    let long = lines.first().map_or(0, Vec::len) as f64;
    if long * CELL < LEAST_ROUND {
        return Vec::new();
    }
    lines
        .into_iter()
        .take(2)
        .filter(|line| line.len() as f64 > LEAST_HOLE * long)
        .map(|line| ground.led(line.iter().map(|at| place(at.x, at.y)).collect()))
        .collect()
}

const TERMS: usize = 6;

/// The terms of a second-degree surface at a place, from -1/2 to 1/2 each way.
fn terms(x: f64, y: f64) -> SVector<f64, TERMS> {
    SVector::from([1.0, x, y, x * x, x * y, y * y])
}

/// How much brighter than paper each cell is, as a logarithm: the paper's light is taken as a
/// surface of the second degree through the cells that it fits. What is not seen counts as paper.
fn level(seen: &Grid<Option<f32>>) -> Grid<f32> {
    let share = |place: usize, of: usize| place as f64 / of as f64 - 0.5;
    let at = |x: usize, y: usize| terms(share(x, seen.width()), share(y, seen.height()));
    let mut samples = Vec::new();
    for y in (0..seen.height()).step_by(4) {
        for x in (0..seen.width()).step_by(4) {
            let value = seen.get(x, y).flatten();
            samples.extend(value.map(|value| (at(x, y), f64::from(value))));
        }
    }
    let mut sorted: Vec<f64> = samples.iter().map(|(_, value)| *value).collect();
    sorted.sort_by(f64::total_cmp);
    let bright = sorted.get(sorted.len() * 6 / 10).copied().unwrap_or(0.0);
    let mut surface = SVector::<f64, TERMS>::zeros();
    let mut within = (bright - 0.2, f64::INFINITY);
    for round in 0..8 {
        let mut matrix = SMatrix::<f64, TERMS, TERMS>::zeros();
        let mut vector = SVector::<f64, TERMS>::zeros();
        for (terms, value) in &samples {
            let off = value - terms.dot(&surface);
            if off > within.0 && off < within.1 {
                matrix += terms * terms.transpose();
                vector += terms * *value;
            }
        }
        match matrix.cholesky() {
            Some(found) => surface = found.solve(&vector),
            None => break,
        }
        within = if round > 2 {
            (-0.08, 0.3)
        } else {
            (-0.2, f64::INFINITY)
        };
    }
    Grid::made(seen.width(), seen.height(), |x, y| {
        let paper: f32 = at(x, y).dot(&surface).as_();
        seen.get(x, y).flatten().map_or(0.0, |value| value - paper)
    })
}

/// How much each cell's neighbourhood varies, apart from slow changes.
fn rough(levels: &Grid<f32>) -> Grid<f32> {
    let even = blurred(levels);
    let square = Grid::made(levels.width(), levels.height(), |x, y| {
        let off = levels.get(x, y).unwrap_or(0.0) - even.get(x, y).unwrap_or(0.0);
        off * off
    });
    blurred(&square).map(f32::sqrt)
}

fn blurred(grid: &Grid<f32>) -> Grid<f32> {
    let weights = blur::weights(EVEN);
    let across: Vec<Vec<f32>> = grid
        .cells()
        .chunks(grid.width().max(1))
        .map(|row| blur::row(row, &weights))
        .collect();
    let columns: Vec<Vec<f32>> = (0..grid.width())
        .map(|x| {
            let column: Vec<f32> = across
                .iter()
                .filter_map(|row| row.get(x))
                .copied()
                .collect();
            blur::row(&column, &weights)
        })
        .collect();
    Grid::made(grid.width(), grid.height(), |x, y| {
        columns
            .get(x)
            .and_then(|column| column.get(y))
            .copied()
            .unwrap_or(0.0)
    })
}
