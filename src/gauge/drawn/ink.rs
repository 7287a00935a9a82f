use kurbo::{Point, Vec2};
use num_traits::AsPrimitive;

use crate::gauge::grid::Grid;
use crate::gauge::ground::Ground;
use crate::gauge::picture::brightness;
use crate::gauge::steel::DARK;
use crate::gauge::view::View;

/// A cell is a pixel wide, but no less and no more than this, in mm.
const CELL: (f64, f64) = (0.25, 0.5);
/// Of a fine picture a cell is the mean of at most so many places each way.
const MOST_FINE: usize = 4;
/// Side of the blocks of which the paper's own light is told, in mm; a line takes a third of one
/// at most.
const BLOCK: f64 = 4.0;
/// The share of a block's cells that is darker than its paper.
const DARKER: f64 = 0.75;
/// Ink is darker than paper by this logarithm, and by so many spreads of the paper's noise.
const LEAST: f32 = 0.1;
const SPREADS: f32 = 6.0;

/// How dark a plane is against the paper about each place.
pub struct Ink {
    /// The logarithm by which each cell is darker; nothing where it is not looked at.
    pub dark: Grid<Option<f32>>,
    /// What is darker than this is ink.
    pub least: f32,
    /// Side of a cell in mm.
    pub cell: f64,
    /// The middle of the first cell, in mm; rows run down.
    corner: Point,
}

impl Ink {
    pub fn of(view: &View<'_>, ground: &Ground) -> Self {
        let bounds = ground.bounds();
        let corner = Point::new(bounds.x0, bounds.y1);
        let pixels = pixels(view, bounds.center());
        let cell = (1.0 / pixels).clamp(CELL.0, CELL.1);
        let fine: usize = (pixels * cell).round().as_();
        let fine = fine.clamp(1, MOST_FINE);
        let cells = |long: f64| -> usize { (long / cell).as_() };
        let level = Grid::made(cells(bounds.width()), cells(bounds.height()), |x, y| {
            let at = corner + Vec2::new(x as f64, -(y as f64)) * cell;
            let level = || level(view, at, cell, fine);
            let is_free = ground.holds(at) && !ground.is_covered(at);
            is_free.then(level).flatten()
        });
        let block: usize = (BLOCK / cell).as_();
        let paper = paper(&level, block);
        let dark = Grid::made(level.width(), level.height(), |x, y| {
            let share = |at: usize| (at as f64 + 0.5) / block as f64 - 0.5;
            let paper = within(&paper, share(x), share(y))?;
            Some(paper - level.get(x, y).flatten()?)
        });
        Self {
            least: least(&dark),
            dark,
            cell,
            corner,
        }
    }

    /// The middle of a cell, in mm; between cells too.
    pub fn place(&self, x: f64, y: f64) -> Point {
        self.corner + Vec2::new(x, -y) * self.cell
    }

    /// The share of light that ink takes at a place, between cells too.
    pub fn taken(&self, at: Point) -> f64 {
        let (x, y) = (
            (at.x - self.corner.x) / self.cell,
            (self.corner.y - at.y) / self.cell,
        );
        let (left, top) = (x.floor(), y.floor());
        let value = |right: f64, down: f64| {
            let (column, row) = (left + right, top + down);
            let is_in = column >= 0.0 && row >= 0.0;
            let cell = || self.dark.get(column.as_(), row.as_()).flatten();
            let dark = is_in.then(cell).flatten().unwrap_or(0.0);
            1.0 - f64::from(-dark).exp()
        };
        let (across, down) = (x - left, y - top);
        let above = value(0.0, 0.0) * (1.0 - across) + value(1.0, 0.0) * across;
        let below = value(0.0, 1.0) * (1.0 - across) + value(1.0, 1.0) * across;
        above * (1.0 - down) + below * down
    }
}

/// Pixels for a mm at a place.
fn pixels(view: &View<'_>, at: Point) -> f64 {
    let ends = [at, at + Vec2::new(1.0, 0.0)].map(|at| view.pixel(at));
    match ends {
        [Some(from), Some(to)] => (to - from).hypot(),
        _ => 1.0,
    }
}

/// The logarithm of the light of a cell.
fn level(view: &View<'_>, at: Point, cell: f64, fine: usize) -> Option<f32> {
    let offset = |step: usize| ((step as f64 + 0.5) / fine as f64 - 0.5) * cell;
    let (mut sum, mut count) = (0.0_f32, 0.0_f32);
    for down in 0..fine {
        for across in 0..fine {
            let light = view.light(at + Vec2::new(offset(across), offset(down)));
            sum += brightness(light?);
            count += 1.0;
        }
    }
    Some((sum / count + DARK).ln())
}

/// The paper's own light, block by block; of a block that is not looked at nothing.
fn paper(level: &Grid<Option<f32>>, block: usize) -> Grid<Option<f32>> {
    let blocks = |count: usize| count.div_ceil(block);
    Grid::made(blocks(level.width()), blocks(level.height()), |x, y| {
        let rows = y * block..(y + 1) * block;
        let cells = rows.flat_map(|y| (x * block..(x + 1) * block).map(move |x| (x, y)));
        let mut values: Vec<f32> = cells
            .filter_map(|(x, y)| level.get(x, y).flatten())
            .collect();
        values.sort_by(f32::total_cmp);
        let place: usize = (values.len() as f64 * DARKER).as_();
        values.get(place).copied()
    })
}

/// The value between the cells that have one.
fn within(grid: &Grid<Option<f32>>, x: f64, y: f64) -> Option<f32> {
    let (left, top) = (x.floor(), y.floor());
    let (mut sum, mut weights) = (0.0, 0.0);
    for (right, down) in [(0.0, 0.0), (1.0, 0.0), (0.0, 1.0), (1.0, 1.0)] {
        let (column, row) = (left + right, top + down);
        if column < 0.0 || row < 0.0 {
            continue;
        }
        if let Some(value) = grid.get(column.as_(), row.as_()).flatten() {
            let weight = (1.0 - (x - column).abs()) * (1.0 - (y - row).abs());
            sum += weight * f64::from(value);
            weights += weight;
        }
    }
    let value = sum / weights;
    value.is_finite().then(|| value.as_())
}

/// What is darker than this is ink: the noise of the paper is told by its brighter half.
fn least(dark: &Grid<Option<f32>>) -> f32 {
    let mut values: Vec<f32> = dark.cells().iter().copied().flatten().collect();
    values.sort_by(f32::total_cmp);
    let at = |share: f64| {
        let place: usize = (values.len() as f64 * share).as_();
        values.get(place).copied().unwrap_or(0.0)
    };
    let middle = at(0.5);
    middle + f32::max(SPREADS * (middle - at(0.16)), LEAST)
}
