use kurbo::Point;
use serde::{Deserialize, Serialize};

/// The sheet of paper that the shoe lies on, or a card beside it, by which the picture is
/// measured.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Sheet {
    /// 210 mm × 297 mm.
    A4,
    /// 8 1/2 in × 11 in.
    Letter,
    /// A card of 53.98 mm × 85.60 mm beside the shoe.
    Card,
}

impl Sheet {
    /// Its short side and its long one, in mm.
    pub fn size(self) -> (f64, f64) {
        self.about().size
    }

    /// Its corners in mm about its middle, its short side across, in order round it as they are
    /// seen from above: clockwise in a picture whose y runs down.
    pub fn corners(self) -> [Point; 4] {
        let (width, height) = self.size();
        let (x, y) = (width / 2.0, height / 2.0);
        [(-x, y), (x, y), (x, -y), (-x, -y)].map(Point::from)
    }

    /// How far inside the side from the corner of that number to the next one a place lies, in
    /// mm; less than nothing outside.
    pub fn inside(self, side: usize, at: Point) -> f64 {
        let (width, height) = self.size();
        match side {
            0 => height / 2.0 - at.y,
            1 => width / 2.0 - at.x,
            2 => height / 2.0 + at.y,
            _ => width / 2.0 + at.x,
        }
    }
}
