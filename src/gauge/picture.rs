use kurbo::Point;
use num_traits::AsPrimitive;

use super::grid::Grid;

/// A picture as it comes out of its file: red, green and blue of 8 bits, coded as sRGB.
#[derive(Debug, Clone, PartialEq)]
pub struct Picture {
    width: usize,
    height: usize,
    pixels: Vec<u8>,
    /// The light of each code, 1 for white.
    light: Vec<f32>,
}

impl Picture {
    /// *Shape:* three bytes a pixel, row by row; `None` if there are not as many.
    pub fn of(width: usize, height: usize, pixels: Vec<u8>) -> Option<Self> {
        let is_whole = width.checked_mul(height)?.checked_mul(3)? == pixels.len();
        is_whole.then(|| Self {
            width,
            height,
            pixels,
            light: (0..=u8::MAX).map(light_of).collect(),
        })
    }

    /// As many columns.
    pub fn width(&self) -> usize {
        self.width
    }

    /// As many rows.
    pub fn height(&self) -> usize {
        self.height
    }

    /// The middle of the picture.
    pub fn middle(&self) -> Point {
        let half = |count: usize| (count as f64 - 1.0) / 2.0;
        Point::new(half(self.width), half(self.height))
    }

    /// Light at a place between pixels, red, green and blue, by bilinear interpolation; `None`
    /// outside.
    pub fn light(&self, at: Point) -> Option<[f32; 3]> {
        let (left, top) = (at.x.floor(), at.y.floor());
        if !(left >= 0.0 && top >= 0.0) {
            return None;
        }
        let (across, down): (f32, f32) = ((at.x - left).as_(), (at.y - top).as_());
        let (left, top): (usize, usize) = (left.as_(), top.as_());
        let [a, b] = self.pair(left, top)?;
        let [c, d] = self.pair(left, top + 1)?;
        let mut light = [0.0; 3];
        let corners = a.iter().zip(b).zip(c.iter().zip(d));
        for (value, ((a, b), (c, d))) in light.iter_mut().zip(corners) {
            let [a, b, c, d] = [a, b, c, d].map(|code| self.light_of(*code));
            let (above, below) = (a + (b - a) * across, c + (d - c) * across);
            *value = above + (below - above) * down;
        }
        Some(light)
    }

    /// Brightness, each cell the mean of so many pixels each way.
    pub fn shrunk(&self, by: usize) -> Grid<f32> {
        let by = by.max(1);
        let share = 1.0 / (by * by) as f32;
        let mut sums = vec![0.0_f32; self.width / by];
        let mut rows = Vec::with_capacity(self.height / by);
        for (y, row) in self.pixels.chunks_exact(3 * self.width).enumerate() {
            for (sum, pixels) in sums.iter_mut().zip(row.chunks_exact(3 * by)) {
                let pixels = pixels.as_chunks().0.iter();
                *sum += share * pixels.map(|pixel| self.brightness_of(*pixel)).sum::<f32>();
            }
            if y % by == by - 1 {
                rows.push(sums.clone());
                sums.fill(0.0);
            }
        }
        Grid::made(self.width / by, rows.len(), |x, y| {
            rows.get(y)
                .and_then(|row| row.get(x))
                .copied()
                .unwrap_or(0.0)
        })
    }

    /// Two pixels side by side.
    fn pair(&self, left: usize, top: usize) -> Option<[&[u8; 3]; 2]> {
        if left + 1 >= self.width {
            return None;
        }
        let start = 3 * (top * self.width + left);
        let (pixels, _) = self.pixels.get(start..start + 6)?.as_chunks();
        match pixels {
            [one, other] => Some([one, other]),
            _ => None,
        }
    }

    fn light_of(&self, code: u8) -> f32 {
        self.light.get(usize::from(code)).copied().unwrap_or(0.0)
    }

    fn brightness_of(&self, pixel: [u8; 3]) -> f32 {
        brightness(pixel.map(|code| self.light_of(code)))
    }
}

/// Relative luminance. *Source:* IEC 61966-2-1 (sRGB), primaries of ITU-R BT.709.
pub fn brightness([red, green, blue]: [f32; 3]) -> f32 {
    0.2126 * red + 0.7152 * green + 0.0722 * blue
}

/// *Source:* IEC 61966-2-1 (sRGB), decoding.
fn light_of(code: u8) -> f32 {
    let coded = f32::from(code) / 255.0;
    if coded <= 0.040_45 {
        coded / 12.92
    } else {
        ((coded + 0.055) / 1.055).powf(2.4)
    }
}
