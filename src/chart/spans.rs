use super::class::Class;
use super::drawing::{Align, Drawing, Shape};
use super::symbol::Symbol;

/// One row: where something lies between none and all.
#[derive(Debug, Clone, PartialEq)]
pub struct Span {
    /// What it is.
    pub label: String,
    /// Its values as people read them.
    pub words: String,
    /// The whole span in per cent, drawn thin.
    pub whole: (f64, f64),
    /// The middle half of it in per cent, drawn as a box; may be left out.
    pub half: Option<(f64, f64)>,
    /// What stands for all of it, in per cent.
    pub middle: f64,
}

const WIDTH: f64 = 360.0;
/// Room beside 0 and 100 for their labels.
const MARGIN: f64 = 14.0;
/// What one row takes: its words and its span.
const ROW: f64 = 46.0;
/// Where the span lies below the top of its row.
const MIDDLE: f64 = 30.0;
/// Half the height of a box.
const HALF: f64 = 7.0;
/// What the labels of the axis take.
const FOOT: f64 = 26.0;

/// Spans over per cent from 0 to 100, each with its words over it. As narrow as a phone, so
/// that words keep their size there.
pub fn spans(title: String, description: String, rows: &[Span]) -> Drawing {
    let count = u32::try_from(rows.len()).unwrap_or(u32::MAX);
    let bottom = f64::from(count) * ROW;
    let mut shapes = axis(bottom);
    let mut top = 0.0;
    for row in rows {
        shapes.extend(span(row, top));
        top += ROW;
    }
    Drawing {
        left: 0.0,
        top: 0.0,
        width: WIDTH,
        height: bottom + FOOT,
        title,
        description,
        shapes,
        readings: Vec::new(),
        days: None,
    }
}

fn across(percent: f64) -> f64 {
    MARGIN + percent.clamp(0.0, 100.0) / 100.0 * (WIDTH - 2.0 * MARGIN)
}

fn axis(bottom: f64) -> Vec<Shape> {
    let ticks = [0_u8, 25, 50, 75, 100];
    let lines = ticks.map(|tick| Shape::Line {
        x1: across(f64::from(tick)),
        y1: 0.0,
        x2: across(f64::from(tick)),
        y2: bottom,
        class: Class::GridLine,
    });
    let labels = ticks.map(|tick| Shape::Text {
        x: across(f64::from(tick)),
        y: bottom + 18.0,
        align: Align::Middle,
        text: tick.to_string(),
        class: Class::Label,
    });
    lines.into_iter().chain(labels).collect()
}

fn span(row: &Span, top: f64) -> Vec<Shape> {
    let text = |x, align, text: &str| Shape::Text {
        x,
        y: top + 15.0,
        align,
        text: text.to_owned(),
        class: Class::BarWords,
    };
    let y = top + MIDDLE;
    let line = Shape::Line {
        x1: across(row.whole.0),
        y1: y,
        x2: across(row.whole.1),
        y2: y,
        class: Class::Whisker,
    };
    let half = row.half.map(|(low, high)| Shape::Rect {
        x: across(low),
        y: y - HALF,
        width: across(high) - across(low),
        height: 2.0 * HALF,
        class: Class::BarBefore,
        band: None,
    });
    let words = [
        text(0.0, Align::Start, &row.label),
        text(WIDTH, Align::End, &row.words),
        line,
    ];
    let point = Symbol::Diamond.shape((across(row.middle), y), 5.0, false);
    words.into_iter().chain(half).chain([point]).collect()
}
