use super::axis::RoundAxis;
use super::class::Class;
use super::drawing::{Align, Drawing, Shape};
use super::grid::{upright, upright_lines};
use super::symbol::Symbol;

/// The values of one row, each a dot.
#[derive(Debug, Clone, PartialEq)]
pub struct DotRow {
    /// Whose they are.
    pub name: String,
    /// The values.
    pub values: Vec<f64>,
    /// Whether somebody should look at them: they are drawn open, as squares on their corner.
    pub is_doubtful: bool,
}

const WIDTH: f64 = 300.0;
/// Where values stand.
const LEFT: f64 = 24.0;
const RIGHT: f64 = 276.0;
const TOP: f64 = 6.0;
/// What one row takes: its name, and its values under it.
const ROW: f64 = 40.0;
const RADIUS: f64 = 5.0;

/// Values as dots on one axis that holds `reach`, a row to each name, with a line through all
/// of them at nothing. Drawings of one `reach` have the same axis.
///
/// *Shape:* any number of rows.
pub fn dots(title: String, description: String, rows: &[DotRow], reach: (f64, f64)) -> Drawing {
    let span = RoundAxis::around(reach.0.min(0.0), reach.1.max(0.0), 4.0);
    let x_of = |value: f64| span.place(value, LEFT, RIGHT);
    let foot = rows.iter().fold(TOP, |top, _| top + ROW);
    let upwards = (TOP, foot);
    let ticks = span.ticks.iter();
    let ticks = ticks.map(|(value, label)| (x_of(*value), label.clone()));
    let mut shapes: Vec<Shape> = upright_lines(ticks, upwards).collect();
    shapes.push(upright(x_of(0.0), upwards, Class::Tie));
    let mut top = TOP;
    for row in rows {
        shapes.push(Shape::Text {
            x: LEFT,
            y: top + 16.0,
            align: Align::Start,
            text: row.name.clone(),
            class: Class::BarWords,
        });
        let y = top + 28.0;
        shapes.push(Shape::Line {
            x1: LEFT,
            y1: y,
            x2: RIGHT,
            y2: y,
            class: Class::GridLine,
        });
        let symbol = if row.is_doubtful {
            Symbol::Diamond
        } else {
            Symbol::Dot
        };
        let at = |value: &f64| symbol.shape((x_of(*value), y), RADIUS, row.is_doubtful);
        shapes.extend(row.values.iter().map(at));
        top += ROW;
    }
    Drawing {
        left: 0.0,
        top: 0.0,
        width: WIDTH,
        height: foot + 26.0,
        title,
        description,
        shapes,
        readings: Vec::new(),
        days: None,
    }
}
