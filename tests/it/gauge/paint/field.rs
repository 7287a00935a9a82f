use kurbo::{Line, ParamCurveNearest as _, Point, Rect};
use num_traits::AsPrimitive as _;

use super::outline::Outline;

/// How far a place is from the edges of steel, less than nothing within it; no more than
/// [`FAR`] is told.
pub struct Field {
    corner: Point,
    columns: usize,
    rows: usize,
    cells: Vec<f64>,
}

/// In mm.
const CELL: f64 = 0.5;
const FAR: f64 = 12.0;

fn cells(length: f64) -> usize {
    (length / CELL).max(0.0).as_()
}

impl Field {
    pub fn of(shoe: &Outline) -> Self {
        let start = Rect::from_points(shoe.outer[0], shoe.outer[0]);
        let around = shoe.outer.iter().fold(start, |held, at| held.union_pt(*at));
        let around = around.inflate(FAR, FAR);
        let columns = cells(around.width()) + 2;
        let rows = cells(around.height()) + 2;
        let mut field = Self {
            corner: around.origin(),
            columns,
            rows,
            cells: vec![FAR; columns * rows],
        };
        for ring in [&shoe.outer, &shoe.inner] {
            for index in 0..ring.len() {
                field.near(Line::new(ring[index], ring[(index + 1) % ring.len()]));
            }
        }
        for row in 0..rows {
            field.sign(row, shoe);
        }
        field
    }

    /// By interpolation between cells; off by under 0.01 mm along an edge.
    pub fn at(&self, at: Point) -> f64 {
        let (x, y) = ((at.x - self.corner.x) / CELL, (at.y - self.corner.y) / CELL);
        let (left, low) = (x.floor(), y.floor());
        if left < 0.0 || low < 0.0 {
            return FAR;
        }
        let (column, row): (usize, usize) = (left.as_(), low.as_());
        if column + 1 >= self.columns || row + 1 >= self.rows {
            return FAR;
        }
        let (across, up) = (x - left, y - low);
        let start = row * self.columns + column;
        let below = self.cells[start] * (1.0 - across) + self.cells[start + 1] * across;
        let start = start + self.columns;
        let above = self.cells[start] * (1.0 - across) + self.cells[start + 1] * across;
        below * (1.0 - up) + above * up
    }

    fn place(&self, column: usize, row: usize) -> Point {
        self.corner + kurbo::Vec2::new(column as f64, row as f64) * CELL
    }

    /// Cells near a piece of an edge take the distance to it.
    fn near(&mut self, edge: Line) {
        let near = Rect::from_points(edge.p0, edge.p1).inflate(FAR, FAR) - self.corner.to_vec2();
        for row in cells(near.y0)..(cells(near.y1) + 1).min(self.rows) {
            for column in cells(near.x0)..(cells(near.x1) + 1).min(self.columns) {
                let far = edge
                    .nearest(self.place(column, row), 1e-6)
                    .distance_sq
                    .sqrt();
                let cell = &mut self.cells[row * self.columns + column];
                *cell = cell.min(far);
            }
        }
    }

    /// Within the steel a line to the right crosses an odd number of edges.
    fn sign(&mut self, row: usize, shoe: &Outline) {
        let y = self.place(0, row).y;
        let crossings: Vec<f64> = [&shoe.outer, &shoe.inner]
            .into_iter()
            .flat_map(|ring| {
                (0..ring.len()).filter_map(move |index| {
                    let (p, q) = (ring[index], ring[(index + 1) % ring.len()]);
                    let crosses = (p.y > y) != (q.y > y);
                    crosses.then(|| p.x + (q.x - p.x) * (y - p.y) / (q.y - p.y))
                })
            })
            .collect();
        for column in 0..self.columns {
            let x = self.place(column, row).x;
            if crossings.iter().filter(|at| **at > x).count() % 2 == 1 {
                self.cells[row * self.columns + column] *= -1.0;
            }
        }
    }
}
