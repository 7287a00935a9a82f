use super::axis::RoundAxis;
use super::class::Class;
use super::drawing::{Align, Drawing, Reading, Shape};
use super::grid::grid_line;
use super::symbol::Symbol;

/// A line across with how sure it is.
#[derive(Debug, Clone, PartialEq)]
pub struct Bound {
    /// Where.
    pub value: f64,
    /// From where to where it may be.
    pub interval: (f64, f64),
    /// What stands at it: `mean +1.2`.
    pub label: String,
}

/// What two people gave one piece.
#[derive(Debug, Clone, PartialEq)]
pub struct DifferencePoint {
    /// The mean of both.
    pub mean: f64,
    /// The first less the second.
    pub difference: f64,
    /// What stands at the point: the number of the piece.
    pub name: String,
    /// What is read off there.
    pub words: String,
}

/// Differences of two people's values over the mean of both, after Bland and Altman.
#[derive(Debug, Clone, PartialEq)]
pub struct Differences {
    /// A piece each.
    pub points: Vec<DifferencePoint>,
    /// The mean difference.
    pub middle: Bound,
    /// The lower limit.
    pub low: Bound,
    /// The upper limit.
    pub high: Bound,
    /// What goes along the foot: `mean of both, per cent`.
    pub across: String,
    /// What goes upwards: `A less B, per cent`.
    pub upwards: String,
    /// What it is.
    pub title: String,
    /// What it says.
    pub description: String,
}

const WIDTH: f64 = 600.0;
const HEIGHT: f64 = 330.0;
const LEFT: f64 = 60.0;
const RIGHT: f64 = 440.0;
const TOP: f64 = 30.0;
const BOTTOM: f64 = 270.0;
/// Room between the ends of the foot and the first or last point.
const MARGIN: f64 = 20.0;
/// Where the interval of the first line stands, how far the next ones stand from it, and
/// where their words begin.
const WHISKER: f64 = 450.0;
const WHISKERS_APART: f64 = 9.0;
const WORDS: f64 = 480.0;
/// Words closer than this would run into each other.
const WORDS_ROOM: f64 = 18.0;
const RADIUS: f64 = 5.0;

/// Draws the differences: a whole line for their mean, dashed ones for the limits, beside
/// them how sure each is.
///
/// *Shape:* any number of points.
pub fn differences(plan: &Differences) -> Drawing {
    let bounds = [&plan.high, &plan.middle, &plan.low];
    let ends = bounds
        .iter()
        .flat_map(|one| [one.interval.0, one.interval.1]);
    let ups: Vec<f64> = ends
        .chain(plan.points.iter().map(|point| point.difference))
        .chain([0.0])
        .collect();
    let up = span(&ups, 6.0);
    let means: Vec<f64> = plan.points.iter().map(|point| point.mean).collect();
    let across = span(&means, 6.0);
    let x_of = |mean: f64| across.place(mean, LEFT + MARGIN, RIGHT - MARGIN);
    let y_of = |value: f64| up.place(value, BOTTOM, TOP);
    let mut shapes: Vec<Shape> = up
        .ticks
        .iter()
        .flat_map(|(value, label)| grid_line(LEFT, RIGHT, y_of(*value), label.clone()))
        .collect();
    shapes.extend(
        across
            .ticks
            .iter()
            .map(|(value, label)| text(x_of(*value), BOTTOM + 24.0, Align::Middle, label.clone())),
    );
    shapes.push(text(RIGHT, BOTTOM + 48.0, Align::End, plan.across.clone()));
    shapes.push(text(0.0, TOP - 14.0, Align::Start, plan.upwards.clone()));
    let classes = [Class::Tie, Class::Series, Class::Tie];
    shapes.extend(lines(bounds, classes, &y_of));
    let mut readings = Vec::new();
    for point in &plan.points {
        let (x, y) = (x_of(point.mean), y_of(point.difference));
        shapes.push(Symbol::Dot.shape((x, y), RADIUS, false));
        shapes.push(text(x + 8.0, y - 6.0, Align::Start, point.name.clone()));
        let words = point.words.clone();
        readings.push(Reading { x, y, words });
    }
    Drawing {
        left: 0.0,
        top: 0.0,
        width: WIDTH,
        height: HEIGHT,
        title: plan.title.clone(),
        description: plan.description.clone(),
        shapes,
        readings,
        days: None,
    }
}

fn span(values: &[f64], parts: f64) -> RoundAxis {
    let low = values.iter().copied().fold(f64::INFINITY, f64::min);
    let high = values.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    if low.is_finite() && high.is_finite() {
        RoundAxis::around(low, high, parts)
    } else {
        RoundAxis::around(0.0, 1.0, parts)
    }
}

fn text(x: f64, y: f64, align: Align, text: String) -> Shape {
    Shape::Text {
        x,
        y,
        align,
        text,
        class: Class::Label,
    }
}

/// Each line up to its interval, which stands beside those of the others, with its words;
/// words that would run into the ones above move down.
fn lines(bounds: [&Bound; 3], classes: [Class; 3], y_of: &impl Fn(f64) -> f64) -> Vec<Shape> {
    let mut shapes = Vec::new();
    let mut free_from = 0.0_f64;
    let mut end = WHISKER;
    for (one, class) in bounds.into_iter().zip(classes) {
        let y = y_of(one.value);
        let (low, high) = one.interval;
        shapes.push(Shape::Path {
            d: format!("M{LEFT},{y:.1} H{end}"),
            class,
        });
        shapes.push(Shape::Line {
            x1: end,
            y1: y_of(low),
            x2: end,
            y2: y_of(high),
            class: Class::Whisker,
        });
        let base = (y + 5.0).max(free_from);
        free_from = base + WORDS_ROOM;
        shapes.push(text(WORDS, base, Align::Start, one.label.clone()));
        end += WHISKERS_APART;
    }
    shapes
}
