//! Rows with words over what is drawn, on one scale; as narrow as a phone, so that words keep
//! their size there.

use super::class::Class;
use super::drawing::{Align, Shape};

/// How wide all of it is.
pub(super) const WIDTH: f64 = 360.0;
/// Room beside the ends of the scale for their labels.
const MARGIN: f64 = 14.0;
/// What one row takes: its words and what is drawn.
pub(super) const ROW: f64 = 46.0;
/// Where that lies below the top of its row.
pub(super) const MIDDLE: f64 = 30.0;
/// Half the height of a box.
pub(super) const HALF: f64 = 7.0;
/// What the labels of the scale take.
pub(super) const FOOT: f64 = 26.0;

/// Where a share of the scale lies, from nothing to 1.
pub(super) fn across(share: f64) -> f64 {
    MARGIN + share.clamp(0.0, 1.0) * (WIDTH - 2.0 * MARGIN)
}

/// What a row is called and what it comes to, over what is drawn.
pub(super) fn words(label: &str, words: &str, top: f64) -> [Shape; 2] {
    let text = |x, align, text: &str| Shape::Text {
        x,
        y: top + 15.0,
        align,
        text: text.to_owned(),
        class: Class::BarWords,
    };
    [
        text(0.0, Align::Start, label),
        text(WIDTH, Align::End, words),
    ]
}

/// A line of the scale with its label at the foot.
pub(super) fn tick(x: f64, top: f64, bottom: f64, label: String) -> [Shape; 2] {
    let line = Shape::Line {
        x1: x,
        y1: top,
        x2: x,
        y2: bottom,
        class: Class::GridLine,
    };
    let label = Shape::Text {
        x,
        y: bottom + 18.0,
        align: Align::Middle,
        text: label,
        class: Class::Label,
    };
    [line, label]
}
