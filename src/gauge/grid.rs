use num_traits::AsPrimitive;

/// A picture of one value a cell, row by row.
#[derive(Debug, Clone, PartialEq)]
pub struct Grid<T> {
    width: usize,
    height: usize,
    cells: Vec<T>,
}

impl<T: Copy> Grid<T> {
    /// Each cell made from its column and row.
    pub fn made(width: usize, height: usize, mut cell: impl FnMut(usize, usize) -> T) -> Self {
        let mut cells = Vec::with_capacity(width.saturating_mul(height));
        for y in 0..height {
            cells.extend((0..width).map(|x| cell(x, y)));
        }
        Self {
            width,
            height,
            cells,
        }
    }

    /// As many columns.
    pub fn width(&self) -> usize {
        self.width
    }

    /// As many rows.
    pub fn height(&self) -> usize {
        self.height
    }

    /// The value of a cell; `None` outside.
    pub fn get(&self, x: usize, y: usize) -> Option<T> {
        if x < self.width {
            self.cells.get(y * self.width + x).copied()
        } else {
            None
        }
    }

    /// Puts a value into a cell; nothing happens outside.
    pub fn put(&mut self, x: usize, y: usize, value: T) {
        if x < self.width
            && let Some(cell) = self.cells.get_mut(y * self.width + x)
        {
            *cell = value;
        }
    }

    /// All cells, row by row.
    pub fn cells(&self) -> &[T] {
        &self.cells
    }

    /// Each cell with another value.
    pub fn map<U>(&self, value: impl FnMut(T) -> U) -> Grid<U> {
        Grid {
            width: self.width,
            height: self.height,
            cells: self.cells.iter().copied().map(value).collect(),
        }
    }

    /// The cells beside one, as many as there are of the four.
    pub fn beside(&self, x: usize, y: usize) -> impl Iterator<Item = (usize, usize)> + use<T> {
        let (width, height) = (self.width, self.height);
        [(0, 1), (1, 0), (2, 1), (1, 2)]
            .into_iter()
            .filter_map(move |(right, down)| {
                let (x, y) = ((x + right).checked_sub(1)?, (y + down).checked_sub(1)?);
                (x < width && y < height).then_some((x, y))
            })
    }
}

impl Grid<f32> {
    /// The value at a place between cells, whose centres are at whole numbers, by bilinear
    /// interpolation; `None` outside.
    pub fn between(&self, x: f64, y: f64) -> Option<f32> {
        let (left, top) = (x.floor(), y.floor());
        if !(left >= 0.0 && top >= 0.0) {
            return None;
        }
        let (across, down): (f32, f32) = ((x - left).as_(), (y - top).as_());
        let (left, top): (usize, usize) = (left.as_(), top.as_());
        let [a, b] = [self.get(left, top)?, self.get(left + 1, top)?];
        let [c, d] = [self.get(left, top + 1)?, self.get(left + 1, top + 1)?];
        let (above, below) = (a + (b - a) * across, c + (d - c) * across);
        Some(above + (below - above) * down)
    }
}
