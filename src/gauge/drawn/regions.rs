use kurbo::Point;
use num_traits::AsPrimitive;

use super::Unclear;
use super::ink::Ink;
use crate::gauge::grid::Grid;
use crate::gauge::ground::Ground;
use crate::gauge::mask;

type Cell = (usize, usize);

/// Half gaps in a line are closed up to this, in mm.
const GAP: f64 = 0.5;
/// What reaches less far each way, in mm, is no line of an outline.
const LEAST_LINE: f64 = 30.0;
/// What is enclosed and smaller than this, in mm², is a fault of the paper.
const LEAST_AREA: f64 = 4.0;
/// What is enclosed and nowhere further than this from a line, in mm, lies between two strokes.
const BETWEEN: f64 = 3.0;

/// Along the inside of the closed lines of one outline, in mm: the outer one, and that within it
/// where there is one.
pub fn regions(ink: &Ink, ground: &Ground) -> Result<Vec<Vec<Point>>, Unclear> {
    let lines = lines(ink, ground);
    let strokes = mask::pieces(&lines).len();
    if strokes == 0 {
        return Err(Unclear::Missing);
    }
    let mut inside = enclosed(ink, &lines);
    let free = lines.map(|is_line| !is_line);
    let core = mask::shrunk(&free, cells(ink, BETWEEN));
    let has_core = |piece: &[Cell]| piece.iter().any(|(x, y)| core.get(*x, *y) == Some(true));
    if !inside.iter().all(|piece| has_core(piece)) {
        return Err(Unclear::Doubled);
    }
    inside.sort_by_key(|piece| std::cmp::Reverse(span(piece)));
    match inside.as_slice() {
        [] => Err(Unclear::Open),
        // Of strokes there are as many as of closed lines.
        more if strokes > more.len() => Err(Unclear::Open),
        [outer] => Ok(vec![guide(ink, &lines, outer)?]),
        [outer, inner] if is_within(inner, outer) => {
            Ok(vec![guide(ink, &lines, outer)?, guide(ink, &lines, inner)?])
        }
        _ => Err(Unclear::Others),
    }
}

/// Where lines of an outline may be: what is dark and long, and touches neither the edge of what
/// is looked at nor what else lies there.
fn lines(ink: &Ink, ground: &Ground) -> Grid<bool> {
    let dark = &ink.dark;
    let inked = dark.map(|dark| dark.is_some_and(|dark| dark > ink.least));
    let inked = mask::closed(&inked, cells(ink, GAP));
    let others = all(dark).filter(|(x, y)| {
        let is_seen = |(x, y): Cell| dark.get(x, y).flatten().is_some();
        let is_edge = dark.beside(*x, *y).filter(|at| is_seen(*at)).count() < 4;
        is_edge || ground.is_taken(ink.place(*x as f64, *y as f64))
    });
    let inked = mask::without(&inked, others.collect::<Vec<Cell>>());
    let least = cells(ink, LEAST_LINE);
    let short = mask::pieces(&inked).into_iter().filter(|piece| {
        let (across, down) = size(piece);
        across.min(down) < least
    });
    let starts = short.filter_map(|piece| piece.first().copied());
    mask::without(&inked, starts.collect::<Vec<Cell>>())
}

/// As many cells, rounded.
fn cells(ink: &Ink, mm: f64) -> usize {
    (mm / ink.cell).round().as_()
}

/// What lines enclose.
fn enclosed(ink: &Ink, lines: &Grid<bool>) -> Vec<Vec<Cell>> {
    let least: usize = (LEAST_AREA / ink.cell.powi(2)).as_();
    let free = lines.map(|is_line| !is_line);
    let edge = all(lines).filter(|(x, y)| lines.beside(*x, *y).count() < 4);
    let inside = mask::without(&free, edge.collect::<Vec<Cell>>());
    let pieces = mask::pieces(&inside).into_iter();
    pieces.filter(|piece| piece.len() >= least).collect()
}

fn all<T: Copy>(grid: &Grid<T>) -> impl Iterator<Item = Cell> + use<T> {
    let (width, height) = (grid.width(), grid.height());
    (0..height).flat_map(move |y| (0..width).map(move |x| (x, y)))
}

/// Columns and rows from end to end.
fn ends(piece: &[Cell]) -> (Cell, Cell) {
    let columns = || piece.iter().map(|(x, _)| *x);
    let rows = || piece.iter().map(|(_, y)| *y);
    let ends = |values: &dyn Fn() -> (Option<usize>, Option<usize>)| {
        let (least, most) = values();
        (least.unwrap_or(0), most.unwrap_or(0))
    };
    (
        ends(&|| (columns().min(), columns().max())),
        ends(&|| (rows().min(), rows().max())),
    )
}

fn size(piece: &[Cell]) -> (usize, usize) {
    let ((left, right), (top, bottom)) = ends(piece);
    (right - left, bottom - top)
}

/// How much its box holds.
fn span(piece: &[Cell]) -> usize {
    let (across, down) = size(piece);
    across * down
}

fn is_within(inner: &[Cell], outer: &[Cell]) -> bool {
    let (inner, outer) = (ends(inner), ends(outer));
    let holds = |outer: Cell, inner: Cell| outer.0 < inner.0 && inner.1 < outer.1;
    holds(outer.0, inner.0) && holds(outer.1, inner.1)
}

/// Round a piece, along its outer edge.
fn guide(ink: &Ink, lines: &Grid<bool>, piece: &[Cell]) -> Result<Vec<Point>, Unclear> {
    let mut own = lines.map(|_| false);
    for (x, y) in piece {
        own.put(*x, *y, true);
    }
    let longest = mask::borders(&own).into_iter().next();
    let longest = longest.ok_or(Unclear::Missing)?;
    Ok(longest.iter().map(|at| ink.place(at.x, at.y)).collect())
}
