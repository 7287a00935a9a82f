use super::class::Class;
use super::drawing::{Drawing, Shape};
use super::row::{FOOT, HALF, MIDDLE, ROW, WIDTH, across, tick, words};
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

fn axis(bottom: f64) -> Vec<Shape> {
    let ticks = [0_u8, 25, 50, 75, 100].into_iter();
    let ticks = ticks.map(|at| tick(percent(f64::from(at)), 0.0, bottom, at.to_string()));
    let (lines, labels): (Vec<Shape>, Vec<Shape>) = ticks.map(Into::into).unzip();
    lines.into_iter().chain(labels).collect()
}

fn percent(percent: f64) -> f64 {
    across(percent / 100.0)
}

fn span(row: &Span, top: f64) -> Vec<Shape> {
    let y = top + MIDDLE;
    let line = Shape::Line {
        x1: percent(row.whole.0),
        y1: y,
        x2: percent(row.whole.1),
        y2: y,
        class: Class::Whisker,
    };
    let half = row.half.map(|(low, high)| Shape::Rect {
        x: percent(low),
        y: y - HALF,
        width: percent(high) - percent(low),
        height: 2.0 * HALF,
        class: Class::BarBefore,
        band: None,
    });
    let point = Symbol::Diamond.shape((percent(row.middle), y), 5.0, false);
    words(&row.label, &row.words, top)
        .into_iter()
        .chain([line])
        .chain(half)
        .chain([point])
        .collect()
}
