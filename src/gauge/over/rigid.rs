use kurbo::{Point, Vec2};

/// A turn and a shift, in the frame of a shoe.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rigid {
    /// The turn about the origin in radians, from x towards y.
    pub turn: f64,
    /// The shift after it, in mm.
    pub shift: Vec2,
}

impl Rigid {
    /// What moves nothing.
    pub const NONE: Self = Self {
        turn: 0.0,
        shift: Vec2::ZERO,
    };

    /// Where a point goes.
    pub fn of(&self, point: Point) -> Point {
        (turned(point.to_vec2(), self.turn) + self.shift).to_point()
    }

    /// This motion and after it a turn about a place and a shift.
    pub(super) fn then(&self, turn: f64, about: Point, shift: Vec2) -> Self {
        let about = about.to_vec2();
        Self {
            turn: self.turn + turn,
            shift: turned(self.shift - about, turn) + about + shift,
        }
    }
}

fn turned(vector: Vec2, turn: f64) -> Vec2 {
    let (sine, cosine) = turn.sin_cos();
    Vec2::new(
        vector.x * cosine - vector.y * sine,
        vector.x * sine + vector.y * cosine,
    )
}
