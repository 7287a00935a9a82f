use std::collections::HashMap;

use kurbo::Point;

use super::grid::Grid;

/// Cells within so many steps of the mask, right, left, up and down.
fn grown(mask: &Grid<bool>, steps: usize) -> Grid<bool> {
    let far = u16::MAX;
    let width = mask.width().max(1);
    let mut away: Vec<u16> = mask
        .cells()
        .iter()
        .map(|is| if *is { 0 } else { far })
        .collect();
    // Each cell by the one before it and the one above it, and then back from the end.
    for _ in 0..2 {
        let mut above = vec![far; width];
        for row in away.chunks_mut(width) {
            let mut before = far;
            for (cell, above) in row.iter_mut().zip(&mut above) {
                *cell = (*cell).min(before.min(*above).saturating_add(1));
                (before, *above) = (*cell, *cell);
            }
        }
        away.reverse();
    }
    let mut away = away.into_iter().map(usize::from);
    mask.map(|_| away.next().is_some_and(|away| away <= steps))
}

/// Cells that lie further than so many steps within the mask.
pub fn shrunk(mask: &Grid<bool>, steps: usize) -> Grid<bool> {
    grown(&mask.map(|inside| !inside), steps).map(|outside| !outside)
}

/// Without gaps narrower than twice so many steps.
pub fn closed(mask: &Grid<bool>, steps: usize) -> Grid<bool> {
    grown(&grown(mask, steps).map(|inside| !inside), steps).map(|inside| !inside)
}

/// Without what is narrower than twice so many steps.
pub fn opened(mask: &Grid<bool>, steps: usize) -> Grid<bool> {
    closed(&mask.map(|inside| !inside), steps).map(|inside| !inside)
}

/// The cells of a mask, row by row.
pub fn cells(mask: &Grid<bool>) -> impl Iterator<Item = (usize, usize)> + '_ {
    let all = (0..mask.height()).flat_map(|y| (0..mask.width()).map(move |x| (x, y)));
    all.filter(|(x, y)| mask.get(*x, *y) == Some(true))
}

/// Without the pieces that hold one of these cells.
pub fn without(mask: &Grid<bool>, starts: impl IntoIterator<Item = (usize, usize)>) -> Grid<bool> {
    let mut reached = mask.map(|_| false);
    for (x, y) in starts {
        if mask.get(x, y) == Some(true) && reached.get(x, y) == Some(false) {
            reach((x, y), mask, &mut reached);
        }
    }
    Grid::made(mask.width(), mask.height(), |x, y| {
        mask.get(x, y) == Some(true) && reached.get(x, y) == Some(false)
    })
}

/// A mask of its largest piece alone.
pub fn largest(mask: &Grid<bool>) -> Grid<bool> {
    let mut largest = mask.map(|_| false);
    for (x, y) in largest_piece(mask) {
        largest.put(x, y, true);
    }
    largest
}

/// The cells of the largest piece of a mask, which hang together by their sides.
pub fn largest_piece(mask: &Grid<bool>) -> Vec<(usize, usize)> {
    let mut best: Vec<(usize, usize)> = Vec::new();
    for piece in pieces(mask) {
        if piece.len() > best.len() {
            best = piece;
        }
    }
    best
}

/// The cells of each piece of a mask, which hang together by their sides.
pub fn pieces(mask: &Grid<bool>) -> Vec<Vec<(usize, usize)>> {
    let mut reached = mask.map(|_| false);
    let mut pieces = Vec::new();
    for y in 0..mask.height() {
        for x in 0..mask.width() {
            if mask.get(x, y) == Some(true) && reached.get(x, y) == Some(false) {
                pieces.push(reach((x, y), mask, &mut reached));
            }
        }
    }
    pieces
}

/// Cells that hang together with one.
fn reach(
    start: (usize, usize),
    mask: &Grid<bool>,
    reached: &mut Grid<bool>,
) -> Vec<(usize, usize)> {
    let mut piece = vec![start];
    reached.put(start.0, start.1, true);
    let mut next = 0;
    while let Some((x, y)) = piece.get(next).copied() {
        next += 1;
        for (x, y) in mask.beside(x, y) {
            if mask.get(x, y) == Some(true) && reached.get(x, y) == Some(false) {
                reached.put(x, y, true);
                piece.push((x, y));
            }
        }
    }
    piece
}

/// The closed lines between a mask and what is not of it, along the sides of cells, whose
/// centres are at whole numbers. Longest first.
pub fn borders(mask: &Grid<bool>) -> Vec<Vec<Point>> {
    let inside = |x: usize, y: usize| mask.get(x, y) == Some(true);
    let mut next: HashMap<(usize, usize), Vec<(usize, usize)>> = HashMap::new();
    for y in 0..mask.height() {
        for x in (0..mask.width()).filter(|x| inside(*x, y)) {
            let open = [
                (y == 0 || !inside(x, y - 1), (x, y), (x + 1, y)),
                (!inside(x + 1, y), (x + 1, y), (x + 1, y + 1)),
                (!inside(x, y + 1), (x + 1, y + 1), (x, y + 1)),
                (x == 0 || !inside(x - 1, y), (x, y + 1), (x, y)),
            ];
            for (_, from, to) in open.into_iter().filter(|(is_open, ..)| *is_open) {
                next.entry(from).or_default().push(to);
            }
        }
    }
    let mut starts: Vec<(usize, usize)> = next.keys().copied().collect();
    starts.sort_unstable();
    let mut lines = Vec::new();
    for start in starts {
        let mut line = Vec::new();
        let mut at = start;
        while let Some(to) = next.get_mut(&at).and_then(Vec::pop) {
            line.push(Point::new(at.0 as f64 - 0.5, at.1 as f64 - 0.5));
            at = to;
        }
        if !line.is_empty() {
            lines.push(line);
        }
    }
    lines.sort_by_key(|line| std::cmp::Reverse(line.len()));
    lines
}
