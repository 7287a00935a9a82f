use super::class::Class;
use super::drawing::{Align, Drawing, Shape};

const WIDTH: f64 = 400.0;
const TOP: f64 = 18.0;
const BAR: f64 = 18.0;
const NOTCH: f64 = 4.0;
/// Labels closer than this would run into each other on a phone.
const LABEL_ROOM: f64 = 55.0;

/// A stretch of a tolerance with the rank of its marks: 4 is the most, 0 none.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stretch {
    /// Where it starts, in the printed unit.
    pub from: f64,
    /// Where it ends.
    pub to: f64,
    /// Rank of its marks.
    pub rank: u8,
}

/// A tolerance to be drawn.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Tolerance {
    /// Stretches from left to right, without gaps.
    pub stretches: Vec<Stretch>,
    /// Limits with their text.
    pub labels: Vec<(f64, String)>,
    /// The value, or both ends of what is known of it.
    pub value: Option<(f64, f64)>,
    /// What it is.
    pub title: String,
    /// What it says.
    pub description: String,
}

/// The tolerance as a ruler: bands with as many notches as their rank, a plumb
/// where the reading is, a line over what an interval leaves open.
///
/// *Units:* any, as long as all are the same. A value beyond the ruler stands at
/// its end.
pub fn tolerance(plan: &Tolerance) -> Drawing {
    let ends = plan.stretches.first().zip(plan.stretches.last());
    let Some((low, high)) = ends.map(|(first, last)| (first.from, last.to)) else {
        return Drawing::default();
    };
    let span = if high > low { high - low } else { 1.0 };
    let place = |value: f64| ((value - low) / span * WIDTH).clamp(0.0, WIDTH);
    let mut shapes = Vec::new();
    for stretch in &plan.stretches {
        let (from, to) = (place(stretch.from), place(stretch.to));
        let rank = stretch.rank;
        shapes.push(Shape::Rect {
            x: from,
            y: TOP,
            width: to - from,
            height: BAR,
            class: Class::Stretch,
            band: Some(rank),
        });
        shapes.extend(notches(from, to, rank));
    }
    shapes.push(Shape::Rect {
        x: 0.75,
        y: TOP,
        width: WIDTH - 1.5,
        height: BAR,
        class: Class::Frame,
        band: None,
    });
    shapes.extend(limits(plan, &place));
    shapes.extend(
        plan.value
            .into_iter()
            .flat_map(|value| plumb(value, &place)),
    );
    Drawing {
        left: 0.0,
        top: 0.0,
        width: WIDTH,
        height: 56.0,
        title: plan.title.clone(),
        description: plan.description.clone(),
        shapes,
    }
}

fn notches(from: f64, to: f64, rank: u8) -> Vec<Shape> {
    let room = f64::from(rank) * 2.0 * NOTCH;
    if to - from < room {
        return Vec::new();
    }
    let start = (from + to - room) / 2.0 + NOTCH / 2.0;
    let class = if rank == 1 {
        Class::NotchLit
    } else {
        Class::Notch
    };
    let notch = |index: u8| Shape::Rect {
        x: start + f64::from(index) * 2.0 * NOTCH,
        y: TOP + 3.0,
        width: NOTCH,
        height: BAR - 6.0,
        class,
        band: None,
    };
    (0..rank).map(notch).collect()
}

fn limits(plan: &Tolerance, place: &impl Fn(f64) -> f64) -> Vec<Shape> {
    let mut shapes = Vec::new();
    let mut free_from = 0.0;
    for (value, text) in &plan.labels {
        let x = place(*value);
        shapes.push(Shape::Line {
            x1: x,
            y1: TOP + BAR,
            x2: x,
            y2: TOP + BAR + 5.0,
            class: Class::Tick,
        });
        if x < free_from {
            continue;
        }
        free_from = x + LABEL_ROOM;
        let align = if x > WIDTH - LABEL_ROOM / 2.0 {
            Align::End
        } else {
            Align::Start
        };
        shapes.push(Shape::Text {
            x,
            y: 54.0,
            align,
            text: text.clone(),
            class: Class::Label,
        });
    }
    shapes
}

fn plumb((from, to): (f64, f64), place: &impl Fn(f64) -> f64) -> Vec<Shape> {
    let (left, right) = (place(from), place(to));
    let mut shapes = Vec::new();
    if right > left {
        shapes.push(Shape::Line {
            x1: left,
            y1: 7.0,
            x2: right,
            y2: 7.0,
            class: Class::Whisker,
        });
    }
    let middle = f64::midpoint(left, right);
    let path = format!("M{middle:.1},{TOP} l-7,-12 h14 Z");
    shapes.push(Shape::Path {
        d: path,
        class: Class::Plumb,
    });
    shapes
}
