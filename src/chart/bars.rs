use super::class::Class;
use super::drawing::{Align, Drawing, Shape};

/// One row of bars.
#[derive(Debug, Clone, PartialEq)]
pub struct Bar {
    /// What it is.
    pub label: String,
    /// How long the bar is.
    pub value: f64,
    /// What it was before, drawn thinner below it.
    pub before: Option<f64>,
    /// The values as people read them.
    pub words: String,
}

const WIDTH: f64 = 360.0;
/// What one row takes: its words, its bar and the thin one.
const ROW: f64 = 46.0;

/// Bars from the left, each with its words over it. As narrow as a phone, so that words
/// keep their size there.
///
/// *Shape:* any number of rows; the longest bar takes the whole width.
pub fn bars(title: String, description: String, rows: &[Bar]) -> Drawing {
    let values = rows.iter().flat_map(|row| [Some(row.value), row.before]);
    let most = values.flatten().fold(0.0_f64, f64::max);
    let length = |value: f64| {
        if most > 0.0 {
            (value / most * WIDTH).clamp(0.0, WIDTH)
        } else {
            0.0
        }
    };
    let mut shapes = Vec::new();
    let mut top = 0.0;
    for row in rows {
        let text = |x, align, text: &str| Shape::Text {
            x,
            y: top + 15.0,
            align,
            text: text.to_owned(),
            class: Class::BarWords,
        };
        shapes.push(text(0.0, Align::Start, &row.label));
        shapes.push(text(WIDTH, Align::End, &row.words));
        let rect = |y, height, value, class| Shape::Rect {
            x: 0.0,
            y,
            width: length(value),
            height,
            class,
            band: None,
        };
        shapes.push(rect(top + 21.0, 9.0, row.value, Class::Bar));
        let before = row.before;
        shapes.extend(before.map(|before| rect(top + 31.0, 4.0, before, Class::BarBefore)));
        top += ROW;
    }
    Drawing {
        left: 0.0,
        top: 0.0,
        width: WIDTH,
        height: top.max(1.0),
        title,
        description,
        shapes,
        readings: Vec::new(),
        days: None,
    }
}
