use super::class::Class;
use super::drawing::{Align, Shape};

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
