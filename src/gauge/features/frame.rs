use kurbo::{Point, Vec2};

/// Something of both sides, left and right of whoever looks down on the ground face with the
/// toe up. (The shoe lies foot side down, so these are not the horse's.)
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Both<T> {
    /// Of the left side.
    pub left: T,
    /// Of the right side.
    pub right: T,
}

impl<T> Both<T> {
    /// The one of a side.
    pub fn of(&self, side: Side) -> &T {
        match side {
            Side::Left => &self.left,
            Side::Right => &self.right,
        }
    }

    /// What a function makes of each side.
    ///
    /// # Errors
    ///
    /// Those of the function.
    pub(super) fn try_from<E>(mut make: impl FnMut(Side) -> Result<T, E>) -> Result<Self, E> {
        Ok(Self {
            left: make(Side::Left)?,
            right: make(Side::Right)?,
        })
    }
}

/// A side of the shoe as [`Both`] has it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Side {
    /// Left with the toe up.
    Left,
    /// Right with the toe up.
    Right,
}

impl Side {
    /// Left, then right.
    pub const BOTH: [Self; 2] = [Self::Left, Self::Right];

    /// Where x grows from the mirror axis to this side it is 1, else -1.
    pub(super) fn sign(self) -> f64 {
        match self {
            Self::Left => -1.0,
            Self::Right => 1.0,
        }
    }
}

/// The shoe's own frame in that of the input: x to the right from the mirror axis, y along it
/// from the toe to the heels.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Frame {
    /// Where the mirror axis crosses the outer outline at the toe: the origin.
    pub toe: Point,
    /// Direction of x, of length 1.
    pub right: Vec2,
    /// Direction of y, of length 1.
    pub back: Vec2,
}

impl Frame {
    /// The frame with its origin there and y along a direction of length 1, where the input's
    /// y runs up for who sees its x run to the right.
    pub(in crate::gauge) fn along(toe: Point, back: Vec2) -> Self {
        let right = Vec2::new(-back.y, back.x);
        Self { toe, right, back }
    }

    /// A point of the input in the shoe's frame.
    pub fn into_shoe(&self, point: Point) -> Point {
        let from = point - self.toe;
        Point::new(from.dot(self.right), from.dot(self.back))
    }

    /// A point of the shoe's frame in the input.
    pub fn into_input(&self, point: Point) -> Point {
        self.toe + self.right * point.x + self.back * point.y
    }
}
