use kurbo::{Affine, BezPath, PathEl, Point};

/// Outlines of the ground face, in mm.
#[derive(Debug, Clone)]
pub struct Outline {
    pub outer: Vec<Point>,
    pub inner: Vec<Point>,
}

/// A bar shoe, even on both sides.
#[derive(Debug, Clone, Copy)]
pub struct BarShoe {
    pub width: f64,
    pub length: f64,
    /// From toe to where it is widest.
    pub widest: f64,
    /// Between the heel corners.
    pub heels: f64,
    pub web: f64,
    pub toe_web: f64,
    pub bar: f64,
}

impl Default for BarShoe {
    fn default() -> Self {
        Self {
            width: 130.0,
            length: 136.0,
            widest: 62.0,
            heels: 112.0,
            web: 20.0,
            toe_web: 22.0,
            bar: 21.0,
        }
    }
}

impl BarShoe {
    /// Toe up the page, the middle of the shoe turned by radians and laid at a place.
    pub fn laid(&self, at: Point, turn: f64) -> Outline {
        let place = Affine::translate(at.to_vec2())
            * Affine::rotate(turn)
            * Affine::translate((0.0, self.length / 2.0));
        let outer = ring(
            0.0,
            self.width / 2.0,
            self.widest,
            self.heels / 2.0,
            self.length,
        );
        let inner = ring(
            self.toe_web,
            self.width / 2.0 - self.web,
            self.widest,
            self.heels / 2.0 - self.web,
            self.length - self.bar,
        );
        Outline {
            outer: points(&(place * outer)),
            inner: points(&(place * inner)),
        }
    }
}

/// From the toe down the right side, across the heels and up the left: at the toe and where it
/// is widest it runs along the axes, so width and length are exact.
fn ring(toe: f64, half: f64, widest: f64, heel: f64, end: f64) -> BezPath {
    const ROUND: f64 = 0.552_284_8;
    let mut path = BezPath::new();
    let down = widest - toe;
    let back = end - widest;
    path.move_to((0.0, -toe));
    path.curve_to(
        (half * ROUND, -toe),
        (half, -widest + down * ROUND),
        (half, -widest),
    );
    path.curve_to(
        (half, -widest - 0.4 * back),
        (heel + 0.3 * (half - heel), -end + 0.3 * back),
        (heel, -end),
    );
    path.line_to((-heel, -end));
    path.curve_to(
        (-heel - 0.3 * (half - heel), -end + 0.3 * back),
        (-half, -widest - 0.4 * back),
        (-half, -widest),
    );
    path.curve_to(
        (-half, -widest + down * ROUND),
        (-half * ROUND, -toe),
        (0.0, -toe),
    );
    path
}

fn points(path: &BezPath) -> Vec<Point> {
    let mut points = Vec::new();
    kurbo::flatten(path, 0.002, |element| {
        if let PathEl::MoveTo(at) | PathEl::LineTo(at) = element {
            points.push(at);
        }
    });
    points.pop();
    points
}
