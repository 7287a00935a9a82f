use kurbo::{Line, Point, Vec2};

use crate::gauge::grid::Grid;
use crate::gauge::mask::{self, largest_piece};
use crate::gauge::polygon::{area, hull, sides};

/// Of two neighbours on plain paper, the brightnesses differ by less than this share.
const PLAIN: f32 = 0.05;
/// Paper is at least this bright, of the brightest in the picture.
const LEAST_BRIGHT: f32 = 0.3;
/// Paper is at least this share of the picture.
const LEAST_SHARE: f64 = 0.04;
/// A thing on paper has at least so many cells to be looked at.
const LEAST_CELLS: usize = 150;
/// Cells by which half bridges from thing to thing are cut.
const BRIDGE: usize = 3;
/// A thing is as good as a quadrangle that fills this share of what is drawn tight round it:
/// rounded corners take 4 % of a card, and cells some more.
const LEAST_QUADRANGLE: f64 = 0.9;
/// Cells by which the patch of plain paper stays away from the paper's edge.
const MARGIN: f64 = 1.0;

/// The four corners of the patch of plain paper that covers most, clockwise; `None` where no
/// patch is large enough.
pub fn patch(seen: &Grid<f32>) -> Option<[Point; 4]> {
    let corners = largest_quadrangle(&patch_hull(seen)?)?;
    Some(grown(corners))
}

/// Of what lies on the patch of plain paper, the corners of each thing that is about as large as
/// the largest quadrangle in it, clockwise.
pub fn quadrangles(seen: &Grid<f32>) -> Vec<[Point; 4]> {
    let plain = plain(seen);
    let paper = mask::largest(&plain);
    let on_paper = |(x, y): &(usize, usize)| Point::new(*x as f64, *y as f64);
    let cells: Vec<Point> = mask::cells(&paper).map(|at| on_paper(&at)).collect();
    let round = hull(&cells);
    let is_on = |at: Point| sides(&round).all(|(from, to)| (to - from).cross(at - from) >= 0.0);
    let things = Grid::made(seen.width(), seen.height(), |x, y| {
        paper.get(x, y) == Some(false) && is_on(on_paper(&(x, y)))
    });
    // Shadows may hold things together, while of a white card its edge alone is seen.
    let apart = mask::opened(&things, BRIDGE);
    let pieces = [things, apart].map(|things| mask::pieces(&things));
    let pieces = pieces.into_iter().flatten();
    let large = pieces.filter(|piece| piece.len() >= LEAST_CELLS);
    large
        .filter_map(|piece| {
            let round = hull(&piece.iter().map(on_paper).collect::<Vec<Point>>());
            let corners = largest_quadrangle(&round)?;
            let share = area(&corners).abs() / area(&round).abs();
            (share > LEAST_QUADRANGLE).then_some(corners)
        })
        .collect()
}

/// The convex outline of the patch of plain paper that covers most; `None` where no patch is
/// large enough.
pub fn patch_hull(seen: &Grid<f32>) -> Option<Vec<Point>> {
    let plain = plain(seen);
    let best = largest_piece(&plain);
    let cells = (seen.width() * seen.height()) as f64;
    if (best.len() as f64) < LEAST_SHARE * cells {
        return None;
    }
    let cells: Vec<Point> = best
        .iter()
        .map(|(x, y)| Point::new(*x as f64, *y as f64))
        .collect();
    Some(hull(&cells))
}

/// Where the picture is bright and as good as even.
fn plain(seen: &Grid<f32>) -> Grid<bool> {
    let mut cells = seen.cells().to_vec();
    cells.sort_by(f32::total_cmp);
    let bright = cells.get(cells.len() * 97 / 100).copied().unwrap_or(1.0);
    Grid::made(seen.width(), seen.height(), |x, y| {
        let value = seen.get(x, y).unwrap_or(0.0);
        let mut near = seen.beside(x, y);
        value > LEAST_BRIGHT * bright
            && near.all(|(x, y)| {
                let other = seen.get(x, y).unwrap_or(0.0);
                (other - value).abs() < PLAIN * value
            })
    })
}

/// Of the quadrangles with corners among these of a convex outline, the one with the largest
/// area.
fn largest_quadrangle(outline: &[Point]) -> Option<[Point; 4]> {
    let outline = thinned(outline);
    let mut best: Option<(f64, [Point; 4])> = None;
    for (first, one) in outline.iter().enumerate() {
        for (third, three) in outline.iter().enumerate().skip(first + 2) {
            let across = *three - *one;
            let farthest = |of: &mut dyn Iterator<Item = &Point>, sign: f64| {
                let far = of.map(|point| (sign * across.cross(*point - *one), *point));
                far.max_by(|a, b| a.0.total_cmp(&b.0))
            };
            let right = outline.get(first + 1..third)?;
            let left = outline
                .iter()
                .skip(third + 1)
                .chain(outline.iter().take(first));
            let two = farthest(&mut right.iter(), -1.0);
            let four = farthest(&mut left.into_iter(), 1.0);
            if let (Some((above, two)), Some((below, four))) = (two, four)
                && best.is_none_or(|(area, _)| above + below > area)
            {
                best = Some((above + below, [*one, two, *three, four]));
            }
        }
    }
    best.map(|(_, corners)| corners)
}

/// Points of an outline without those that are nearer than two cells to the last one.
fn thinned(outline: &[Point]) -> Vec<Point> {
    let mut kept: Vec<Point> = Vec::new();
    for point in outline {
        if kept
            .last()
            .is_none_or(|last| (*point - *last).hypot() >= 2.0)
        {
            kept.push(*point);
        }
    }
    kept
}

/// Each side moved outwards by the margin.
fn grown(corners: [Point; 4]) -> [Point; 4] {
    let [a, b, c, d] = corners;
    let sides = [(a, b), (b, c), (c, d), (d, a)].map(|(from, to)| {
        let along = (to - from).normalize();
        // Clockwise with y down, the outside lies to the left.
        let out = Vec2::new(along.y, -along.x) * MARGIN;
        Line::new(from + out, to + out)
    });
    let [ab, bc, cd, da] = sides;
    let meet =
        |one: Line, other: Line, else_at: Point| one.crossing_point(other).unwrap_or(else_at);
    [
        meet(da, ab, a),
        meet(ab, bc, b),
        meet(bc, cd, c),
        meet(cd, da, d),
    ]
}
