//! A bar with its layout marks, in mm.

use super::class::Class;
use super::drawing::{Align, Drawing, Shape};

/// Numbers this near, in mm of the bar, do not stand on one line.
const NEAR: f64 = 11.0;
/// From one line of numbers to the next.
const LINE: f64 = 9.0;
/// Lines of numbers.
const LINES: usize = 3;
/// Height of numbers.
const LETTERS: f64 = 7.5;
/// Room beside the bar.
const ROOM: f64 = 2.0;

/// A bar to be marked.
#[derive(Debug, Clone, PartialEq)]
pub struct MarkedBar<'a> {
    /// Its length in mm.
    pub length: f64,
    /// Its width in mm.
    pub width: f64,
    /// Marks from left to right: from the left end in mm, and whether it is the middle.
    pub marks: &'a [(f64, bool)],
    /// What it is.
    pub title: &'a str,
    /// What it says.
    pub description: &'a str,
}

/// The bar with a line for each mark, and its number, from 1, above it.
pub fn marked_bar(bar: &MarkedBar<'_>) -> Drawing {
    let mut shapes = vec![Shape::Rect {
        x: 0.0,
        y: 0.0,
        width: bar.length,
        height: bar.width,
        class: Class::Steel,
        band: None,
    }];
    let mut last = [f64::NEG_INFINITY; LINES];
    for (number, (x, is_middle)) in (1_u8..).zip(bar.marks) {
        let free = last.iter().position(|last| x - last >= NEAR);
        let level = free.unwrap_or(LINES - 1);
        if let Some(last) = last.get_mut(level) {
            *last = *x;
        }
        let up = LINE * (0..level).fold(0.4, |up, _| up + 1.0);
        let class = if *is_middle {
            Class::GaugeCentre
        } else {
            Class::Measure
        };
        shapes.push(Shape::Line {
            x1: *x,
            y1: -up + 1.0,
            x2: *x,
            y2: if *is_middle {
                bar.width + ROOM
            } else {
                bar.width
            },
            class,
        });
        shapes.push(Shape::Note {
            x: *x,
            y: -up,
            align: Align::Middle,
            height: LETTERS,
            text: number.to_string(),
            class: Class::Size,
        });
    }
    let top = LINE * 3.2;
    Drawing {
        left: -ROOM,
        top: -top,
        width: bar.length + 2.0 * ROOM,
        height: top + bar.width + ROOM,
        title: bar.title.to_owned(),
        description: bar.description.to_owned(),
        shapes,
        ..Drawing::default()
    }
}
