//! Drawings that are laid on a made thing: a unit is a millimetre, and paper must not scale it.

use super::class::Class;
use super::drawing::{Align, Drawing, Shape};

/// What neighbouring sheets share, in mm: room for register marks. Common practice, no source.
pub const OVERLAP: f64 = 12.0;
/// Height of the check lines with their words, in mm.
const CHECK_HEIGHT: f64 = 15.0;
/// Width of the same.
const CHECK_WIDTH: f64 = 104.0;
/// Four inches in mm.
const FOUR_INCHES: f64 = 101.6;
/// No drawing takes more sheets than that in a row.
const MOST: u32 = 8;
/// Half the length of a register mark's lines, in mm.
const ARM: f64 = 4.0;
/// Register marks stand so far inside a sheet, in mm.
const INSIDE: f64 = 8.0;

/// What is written under a drawing with check lines that a printer may have scaled.
pub const CHECKED_SIZE: &str = "It is at its true size where the check lines measure 100 mm and \
    4 in; where they measure less, it is drawn smaller by as much.";

/// Two lines that prove that a printer kept the scale, one of 100 mm and one of 4 in, in mm.
pub fn check_lines() -> Drawing {
    let mut shapes = Vec::new();
    let lines = [
        (100.0, 5.0, "100 mm", 20_u8, 5.0),
        (FOUR_INCHES, 12.0, "4 in", 8, FOUR_INCHES / 8.0),
    ];
    for (long, y, words, parts, step) in lines {
        shapes.push(line((0.0, y), (long, y)));
        for part in 0..=parts {
            let x = step * f64::from(part);
            let is_end = part == 0 || part == parts;
            let high = if is_end { 3.0 } else { 1.2 };
            shapes.push(line((x, y - high), (x, y)));
        }
        shapes.push(Shape::Note {
            x: long / 2.0,
            y: y - 1.8,
            align: Align::Middle,
            height: 3.0,
            text: words.to_owned(),
            class: Class::Size,
        });
    }
    Drawing {
        left: -1.0,
        top: -0.5,
        width: CHECK_WIDTH,
        height: CHECK_HEIGHT,
        title: "Check lines".to_owned(),
        description:
            "The upper line is 100 mm long and the lower one 4 in, where the printer did not \
                      scale."
                .to_owned(),
        shapes,
        ..Drawing::default()
    }
}

/// The drawing with the check lines under it.
pub fn with_check_lines(drawing: &Drawing) -> Drawing {
    let lines = check_lines();
    let middle = drawing.left + drawing.width / 2.0 - lines.width / 2.0;
    let (right, down) = (
        middle - lines.left,
        drawing.top + drawing.height - lines.top,
    );
    let mut whole = drawing.clone();
    let shapes = lines.shapes.into_iter();
    whole
        .shapes
        .extend(shapes.map(|shape| shifted(shape, right, down)));
    let room = (lines.width - drawing.width).max(0.0);
    whole.left -= room / 2.0;
    whole.width += room;
    whole.height += lines.height;
    whole
}

fn line(from: (f64, f64), to: (f64, f64)) -> Shape {
    Shape::Line {
        x1: from.0,
        y1: from.1,
        x2: to.0,
        y2: to.1,
        class: Class::GaugeEdge,
    }
}

/// One of the lines or words of the check lines at another place.
fn shifted(shape: Shape, right: f64, down: f64) -> Shape {
    match shape {
        Shape::Line {
            x1,
            y1,
            x2,
            y2,
            class,
        } => Shape::Line {
            x1: x1 + right,
            y1: y1 + down,
            x2: x2 + right,
            y2: y2 + down,
            class,
        },
        Shape::Note {
            x,
            y,
            align,
            height,
            text,
            class,
        } => Shape::Note {
            x: x + right,
            y: y + down,
            align,
            height,
            text,
            class,
        },
        other => other,
    }
}

/// A drawing cut for several sheets.
#[derive(Debug, Clone, PartialEq)]
pub struct Tiles {
    /// How many stand side by side.
    pub columns: u32,
    /// How many stand one below the other.
    pub rows: u32,
    /// What is on each, from left to right and then down. All of them hold every shape and the
    /// register marks; of what lies outside its frame a sheet shows nothing.
    pub sheets: Vec<Drawing>,
}

/// Cuts a drawing into sheets that are at most so wide and high, in mm, and alike. `None` where
/// even many of them would not do.
pub fn tiles(drawing: &Drawing, room: (f64, f64)) -> Option<Tiles> {
    let (columns, width) = cut(drawing.width, room.0)?;
    let (rows, height) = cut(drawing.height, room.1)?;
    let at = |first: f64, size: f64, count: u32| {
        let places = (0..count).map(|place| first + f64::from(place) * (size - OVERLAP));
        places.collect::<Vec<f64>>()
    };
    let lefts = at(drawing.left, width, columns);
    let tops = at(drawing.top, height, rows);
    let mut whole = drawing.clone();
    whole
        .shapes
        .extend(register(&lefts, &tops, (width, height)));
    let mut sheets = Vec::new();
    for top in &tops {
        for left in &lefts {
            sheets.push(Drawing {
                left: *left,
                top: *top,
                width,
                height,
                ..whole.clone()
            });
        }
    }
    Some(Tiles {
        columns,
        rows,
        sheets,
    })
}

/// How many sheets a size takes, and how much of it is on each.
fn cut(size: f64, room: f64) -> Option<(u32, f64)> {
    let step = |count: u32| (size + f64::from(count - 1) * OVERLAP) / f64::from(count);
    let found = (1..=MOST).find(|count| step(*count) <= room)?;
    Some((found, step(found)))
}

/// Marks in the middle of what neighbouring sheets share: where seams cross, near the ends of
/// each, and half way.
fn register(lefts: &[f64], tops: &[f64], (width, height): (f64, f64)) -> Vec<Shape> {
    let (across, down) = (seams(lefts), seams(tops));
    let mut shapes = Vec::new();
    for x in &across {
        for y in stops(tops, height, &down) {
            shapes.extend(cross(*x, y));
        }
    }
    for y in &down {
        for x in stops(lefts, width, &across) {
            if !across.contains(&x) {
                shapes.extend(cross(x, *y));
            }
        }
    }
    shapes
}

/// Where sheets that begin at these places meet.
fn seams(firsts: &[f64]) -> Vec<f64> {
    let inner = firsts.iter().skip(1);
    inner.map(|first| first + OVERLAP / 2.0).collect()
}

/// Places along a seam: near its ends, where others cross it, and half way between those.
fn stops(firsts: &[f64], size: f64, crossing: &[f64]) -> Vec<f64> {
    let (Some(first), Some(last)) = (firsts.first(), firsts.last()) else {
        return Vec::new();
    };
    let mut stops = vec![first + INSIDE];
    stops.extend(crossing);
    stops.push(last + size - INSIDE);
    let next = stops.iter().skip(1);
    let between = stops.iter().zip(next);
    let between: Vec<f64> = between
        .map(|(one, next)| f64::midpoint(*one, *next))
        .collect();
    stops.extend(between);
    stops
}

fn cross(x: f64, y: f64) -> [Shape; 3] {
    [
        line((x - ARM, y), (x + ARM, y)),
        line((x, y - ARM), (x, y + ARM)),
        Shape::Circle {
            x,
            y,
            radius: ARM / 2.0,
            class: Class::GaugeEdge,
        },
    ]
}

/// How a drawing in millimetres came out that is `share` times its true size.
pub fn scale_words(share: f64) -> String {
    if (share - 1.0).abs() < 1e-6 {
        "Drawn at full size where it is printed at 100 %.".to_owned()
    } else {
        format!(
            "Not at full size: 1 mm here is {:.2} mm.",
            1.0 / share.max(1e-9)
        )
    }
}
