use super::class::Class;
use super::drawing::{Shape, path_through};

/// What a value on a chart looks like; told apart by its shape, never by colour alone.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Symbol {
    /// A disc.
    Dot,
    /// A square.
    Square,
    /// A square on its corner.
    Diamond,
    /// A triangle, its corner up.
    Triangle,
}

impl Symbol {
    /// What people call it.
    pub fn word(self) -> &'static str {
        match self {
            Self::Dot => "dot",
            Self::Square => "square",
            Self::Diamond => "diamond",
            Self::Triangle => "triangle",
        }
    }

    /// The symbol around `x`, `y`, about as large as a disc of this radius.
    pub(super) fn shape(self, (x, y): (f64, f64), radius: f64, is_open: bool) -> Shape {
        let class = if is_open {
            Class::PointOpen
        } else {
            Class::Point
        };
        let path = |corners: &[(f64, f64)]| {
            let corners = corners.iter();
            let corners = corners.map(|(right, down)| (x + right * radius, y + down * radius));
            Shape::Path {
                d: path_through(corners) + " Z",
                class,
            }
        };
        match self {
            Self::Dot => Shape::Circle {
                x,
                y,
                radius,
                class,
            },
            Self::Square => path(&[(-0.9, -0.9), (0.9, -0.9), (0.9, 0.9), (-0.9, 0.9)]),
            Self::Diamond => path(&[(0.0, -1.35), (1.35, 0.0), (0.0, 1.35), (-1.35, 0.0)]),
            Self::Triangle => path(&[(0.0, -1.3), (1.2, 0.9), (-1.2, 0.9)]),
        }
    }
}
