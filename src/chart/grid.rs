use super::class::Class;
use super::drawing::{Align, Shape};

/// Upright lines from `top` to `foot` at these places, each with its label below it.
pub(super) fn upright_lines(
    ticks: impl Iterator<Item = (f64, String)>,
    (top, foot): (f64, f64),
) -> impl Iterator<Item = Shape> {
    ticks.flat_map(move |(x, text)| {
        [
            upright(x, (top, foot), Class::GridLine),
            Shape::Text {
                x,
                y: foot + 18.0,
                align: Align::Middle,
                text,
                class: Class::Label,
            },
        ]
    })
}

/// A line from `top` to `foot`.
pub(super) fn upright(x: f64, (top, foot): (f64, f64), class: Class) -> Shape {
    Shape::Line {
        x1: x,
        y1: top,
        x2: x,
        y2: foot,
        class,
    }
}

/// A line across at the height `y`, with its label left of it.
pub(super) fn grid_line(left: f64, right: f64, y: f64, label: String) -> [Shape; 2] {
    [
        Shape::Line {
            x1: left,
            y1: y,
            x2: right,
            y2: y,
            class: Class::GridLine,
        },
        Shape::Text {
            x: left - 10.0,
            y: y + 5.0,
            align: Align::End,
            text: label,
            class: Class::Label,
        },
    ]
}
