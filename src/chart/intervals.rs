use super::axis::RoundAxis;
use super::class::Class;
use super::drawing::{Align, Drawing, Shape};
use super::grid::{upright, upright_lines};
use super::symbol::Symbol;

/// One value with how sure it is.
#[derive(Debug, Clone, PartialEq)]
pub struct IntervalRow {
    /// Whose it is.
    pub name: String,
    /// How much.
    pub value: f64,
    /// From where to where it may be.
    pub interval: (f64, f64),
    /// The value as people read it.
    pub words: String,
}

const WIDTH: f64 = 600.0;
/// Where values stand.
const LEFT: f64 = 20.0;
const RIGHT: f64 = 580.0;
const TOP: f64 = 24.0;
/// What one row takes: its words, and its value under them.
const ROW: f64 = 52.0;
const RADIUS: f64 = 6.0;

/// Values with their intervals on one axis, a row to each with its name and words over it.
/// The place of `middle` is a line through all of them, with its words at the head.
///
/// *Shape:* any number of rows; `ends` say what being left and right means.
pub fn intervals(
    title: String,
    description: String,
    rows: &[IntervalRow],
    (middle, middle_words): (f64, &str),
    ends: (&str, &str),
) -> Drawing {
    let reach = rows.iter().flat_map(|row| [row.interval.0, row.interval.1]);
    let (low, high) = reach.fold((middle, middle), |(low, high), one| {
        (low.min(one), high.max(one))
    });
    let span = RoundAxis::around(low, high, 6.0);
    let x_of = |value: f64| span.place(value, LEFT, RIGHT);
    let text = |x, y, align, text: &str, class| Shape::Text {
        x,
        y,
        align,
        text: text.to_owned(),
        class,
    };
    let foot = rows.iter().fold(TOP, |top, _| top + ROW);
    let upwards = (TOP, foot);
    let ticks = span.ticks.iter();
    let ticks = ticks.map(|(value, label)| (x_of(*value), label.clone()));
    let mut shapes: Vec<Shape> = upright_lines(ticks, upwards).collect();
    shapes.push(upright(x_of(middle), upwards, Class::Tie));
    let head = TOP - 8.0;
    shapes.push(text(
        x_of(middle),
        head,
        Align::Middle,
        middle_words,
        Class::Label,
    ));
    let end = foot + 42.0;
    shapes.push(text(LEFT, end, Align::Start, ends.0, Class::Label));
    shapes.push(text(RIGHT, end, Align::End, ends.1, Class::Label));
    let mut top = TOP;
    for row in rows {
        shapes.push(text(
            LEFT,
            top + 18.0,
            Align::Start,
            &row.name,
            Class::BarWords,
        ));
        shapes.push(text(
            RIGHT,
            top + 18.0,
            Align::End,
            &row.words,
            Class::BarWords,
        ));
        let y = top + 34.0;
        shapes.push(Shape::Line {
            x1: x_of(row.interval.0),
            y1: y,
            x2: x_of(row.interval.1),
            y2: y,
            class: Class::Whisker,
        });
        shapes.push(Symbol::Dot.shape((x_of(row.value), y), RADIUS, false));
        top += ROW;
    }
    Drawing {
        left: 0.0,
        top: 0.0,
        width: WIDTH,
        height: foot + 52.0,
        title,
        description,
        shapes,
        readings: Vec::new(),
        days: None,
    }
}
