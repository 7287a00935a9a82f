use super::class::Class;
use super::course_plan::Axis;
use super::drawing::{Align, Drawing, Shape};
use super::grid::grid_line;

/// How probable every total is, drawn as columns over marks.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Chances {
    /// Marks and how probable they are, from 0 to 1, the least marks first.
    pub chances: Vec<(f64, f64)>,
    /// Marks given and what stands beside them: `given 71`.
    pub given: (f64, String),
    /// The pass mark and what stands beside it: `pass 65`.
    pub pass: (f64, String),
    /// What it is.
    pub title: String,
    /// What it says.
    pub description: String,
}

const WIDTH: f64 = 600.0;
const HEIGHT: f64 = 270.0;
/// Where columns may stand; they grow from [`BOTTOM`] to at most [`TOP`].
const LEFT: f64 = 60.0;
const RIGHT: f64 = 590.0;
const TOP: f64 = 70.0;
const BOTTOM: f64 = 220.0;
/// Room beside the first and last column.
const MARGIN: f64 = 30.0;
/// Totals closer than this are drawn as one column.
const NARROWEST: f64 = 5.0;
/// A column is no wider, however far apart they stand.
const WIDEST: f64 = 36.0;
/// Room that one label under the chart takes.
const LABEL_ROOM: f64 = 70.0;
/// Room that the words beside a line take.
const WORDS: f64 = 120.0;

/// Draws how probable every total is.
///
/// *Shape:* any number of totals; those too close to be told apart are one column with the
/// sum of their chances. The marks given hang as a plumb over their column, the pass mark
/// is a line.
pub fn chances(plan: &Chances) -> Drawing {
    let across = Across::of(plan);
    let columns = columns(plan, &across);
    let most = columns
        .iter()
        .map(|(_, chance)| *chance)
        .fold(0.0, f64::max);
    let axis = Axis::up_to(most * 100.0);
    let up = |chance: f64| (chance * 100.0 / axis.most).clamp(0.0, 1.0) * (BOTTOM - TOP);
    let mut shapes = grid(&axis);
    let wide = width(&columns);
    for (x, chance) in &columns {
        let height = up(*chance);
        shapes.push(Shape::Rect {
            x: x - wide / 2.0,
            y: BOTTOM - height,
            width: wide,
            height,
            class: Class::Chance,
            band: None,
        });
    }
    shapes.extend(pass_line(plan, &across));
    shapes.extend(plumb(plan, &across));
    shapes.extend(across.labels());
    Drawing {
        left: 0.0,
        top: 0.0,
        width: WIDTH,
        height: HEIGHT,
        title: plan.title.clone(),
        description: plan.description.clone(),
        shapes,
        readings: Vec::new(),
        days: None,
    }
}

/// Marks along the chart.
struct Across {
    least: f64,
    most: f64,
}

impl Across {
    fn of(plan: &Chances) -> Self {
        let marks = plan.chances.iter().map(|(marks, _)| *marks);
        let marks = marks.chain([plan.given.0, plan.pass.0]);
        let (least, most) = marks.fold((f64::INFINITY, f64::NEG_INFINITY), |(least, most), one| {
            (least.min(one), most.max(one))
        });
        Self { least, most }
    }

    fn place(&self, marks: f64) -> f64 {
        let range = self.most - self.least;
        if range <= 0.0 {
            return f64::midpoint(LEFT, RIGHT);
        }
        let share = (marks - self.least) / range;
        LEFT + MARGIN + share * (RIGHT - LEFT - 2.0 * MARGIN)
    }

    /// Whole marks under the chart, as many as have room.
    fn labels(&self) -> Vec<Shape> {
        let range = self.most - self.least;
        let room = ((RIGHT - LEFT) / LABEL_ROOM).floor();
        let mut step = 1.0;
        // 1, 2, 5, 10 and so on.
        for factor in [2.0, 2.5, 2.0].into_iter().cycle().take(30) {
            if range / step <= room {
                break;
            }
            step *= factor;
        }
        let mut labels = Vec::new();
        let mut marks = (self.least / step).ceil() * step;
        while marks <= self.most && labels.len() < 20 {
            labels.push(Shape::Text {
                x: self.place(marks),
                y: BOTTOM + 22.0,
                align: Align::Middle,
                text: marks.to_string(),
                class: Class::Label,
            });
            marks += step;
        }
        labels.push(Shape::Text {
            x: RIGHT,
            y: BOTTOM + 45.0,
            align: Align::End,
            text: "marks".to_owned(),
            class: Class::Label,
        });
        labels
    }
}

/// Where each column stands, and how probable it is.
fn columns(plan: &Chances, across: &Across) -> Vec<(f64, f64)> {
    let mut columns: Vec<(f64, f64)> = Vec::new();
    for (marks, chance) in &plan.chances {
        let x = across.place(*marks);
        match columns.last_mut() {
            Some((before, sum)) if x - *before < NARROWEST => *sum += chance,
            _ => columns.push((x, *chance)),
        }
    }
    columns
}

/// Four fifths of the least distance of two columns.
fn width(columns: &[(f64, f64)]) -> f64 {
    let gaps = columns.iter().zip(columns.iter().skip(1));
    let least = gaps.map(|((one, _), (next, _))| next - one);
    (least.fold(WIDEST, f64::min) * 0.8).clamp(NARROWEST * 0.8, WIDEST)
}

fn grid(axis: &Axis) -> Vec<Shape> {
    let line = |(value, label): &(f64, String)| {
        let y = BOTTOM - (value / axis.most).clamp(0.0, 1.0) * (BOTTOM - TOP);
        grid_line(LEFT, RIGHT, y, format!("{label} %"))
    };
    axis.ticks.iter().flat_map(line).collect()
}

fn pass_line(plan: &Chances, across: &Across) -> [Shape; 2] {
    let x = across.place(plan.pass.0);
    [
        Shape::Path {
            d: format!("M{x:.1},22 V{BOTTOM}"),
            class: Class::Pass,
        },
        words(x, 16.0, &plan.pass.1, Class::PassLabel),
    ]
}

fn plumb(plan: &Chances, across: &Across) -> [Shape; 2] {
    let x = across.place(plan.given.0);
    [
        Shape::Path {
            d: format!("M{x:.1},62 l-7,-12 h14 Z"),
            class: Class::Plumb,
        },
        words(x, 42.0, &plan.given.1, Class::GivenLabel),
    ]
}

/// Words over a place, turned inwards at either end.
fn words(x: f64, y: f64, text: &str, class: Class) -> Shape {
    let align = if x - LEFT < WORDS / 2.0 {
        Align::Start
    } else if RIGHT - x < WORDS / 2.0 {
        Align::End
    } else {
        Align::Middle
    };
    Shape::Text {
        x,
        y,
        align,
        text: text.to_owned(),
        class,
    }
}
