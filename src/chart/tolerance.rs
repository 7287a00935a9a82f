use super::class::Class;
use super::drawing::{Align, Drawing, Shape};

/// Sizes of the drawing, in its own units.
struct Frame {
    width: f64,
    height: f64,
    /// Where the bar begins.
    top: f64,
    bar: f64,
    notch: f64,
    /// Height of the line over what is left open.
    open: f64,
    /// The plumb from its tip.
    plumb: &'static str,
}

/// By itself, with its limits in words.
const RULER: Frame = Frame {
    width: 400.0,
    height: 56.0,
    top: 18.0,
    bar: 18.0,
    notch: 4.0,
    open: 7.0,
    plumb: "l-7,-12 h14 Z",
};
/// In a row of a table, where the limits stand beside it.
const STRIP: Frame = Frame {
    width: 160.0,
    height: 22.0,
    top: 9.0,
    bar: 12.0,
    notch: 2.5,
    open: 4.0,
    plumb: "l-5,-8 h10 Z",
};
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
    /// How far it can be off on both sides, in the same unit.
    pub off: f64,
    /// What it is.
    pub title: String,
    /// What it says.
    pub description: String,
}

/// The tolerance as a ruler: bands with as many notches as their rank, a plumb
/// where the reading is, a line over what an interval or measuring leaves open.
///
/// *Units:* any, as long as all are the same. A value beyond the ruler stands at
/// its end.
pub fn tolerance(plan: &Tolerance) -> Drawing {
    drawn(plan, &RULER)
}

/// The same without its limits in words, so low that it fits under a line of text.
pub fn tolerance_strip(plan: &Tolerance) -> Drawing {
    drawn(plan, &STRIP)
}

fn drawn(plan: &Tolerance, frame: &Frame) -> Drawing {
    let ends = plan.stretches.first().zip(plan.stretches.last());
    let Some((low, high)) = ends.map(|(first, last)| (first.from, last.to)) else {
        return Drawing::default();
    };
    let span = if high > low { high - low } else { 1.0 };
    let place = |value: f64| ((value - low) / span * frame.width).clamp(0.0, frame.width);
    let mut shapes = Vec::new();
    for stretch in &plan.stretches {
        let (from, to) = (place(stretch.from), place(stretch.to));
        let rank = stretch.rank;
        shapes.push(Shape::Rect {
            x: from,
            y: frame.top,
            width: to - from,
            height: frame.bar,
            class: Class::Stretch,
            band: Some(rank),
        });
        shapes.extend(notches(frame, from, to, rank));
    }
    shapes.push(Shape::Rect {
        x: 0.75,
        y: frame.top,
        width: frame.width - 1.5,
        height: frame.bar,
        class: Class::Frame,
        band: None,
    });
    shapes.extend(limits(plan, frame, &place));
    let value = plan.value.into_iter();
    shapes.extend(value.flat_map(|value| plumb(frame, value, plan.off, &place)));
    Drawing {
        left: 0.0,
        top: 0.0,
        width: frame.width,
        height: frame.height,
        title: plan.title.clone(),
        description: plan.description.clone(),
        shapes,
        readings: Vec::new(),
        days: None,
    }
}

fn notches(frame: &Frame, from: f64, to: f64, rank: u8) -> Vec<Shape> {
    let wide = frame.notch;
    let room = f64::from(rank) * 2.0 * wide;
    if to - from < room {
        return Vec::new();
    }
    let start = (from + to - room) / 2.0 + wide / 2.0;
    let class = if rank == 1 {
        Class::NotchLit
    } else {
        Class::Notch
    };
    let inset = frame.bar / 6.0;
    let notch = |index: u8| Shape::Rect {
        x: start + f64::from(index) * 2.0 * wide,
        y: frame.top + inset,
        width: wide,
        height: frame.bar - 2.0 * inset,
        class,
        band: None,
    };
    (0..rank).map(notch).collect()
}

fn limits(plan: &Tolerance, frame: &Frame, place: &impl Fn(f64) -> f64) -> Vec<Shape> {
    let mut shapes = Vec::new();
    let mut free_from = 0.0;
    for (value, text) in &plan.labels {
        let x = place(*value);
        shapes.push(Shape::Line {
            x1: x,
            y1: frame.top + frame.bar,
            x2: x,
            y2: frame.top + frame.bar + 5.0,
            class: Class::Tick,
        });
        if x < free_from {
            continue;
        }
        free_from = x + LABEL_ROOM;
        let align = if x > frame.width - LABEL_ROOM / 2.0 {
            Align::End
        } else {
            Align::Start
        };
        shapes.push(Shape::Text {
            x,
            y: frame.height - 2.0,
            align,
            text: text.clone(),
            class: Class::Label,
        });
    }
    shapes
}

fn plumb(
    frame: &Frame,
    (from, to): (f64, f64),
    off: f64,
    place: &impl Fn(f64) -> f64,
) -> Vec<Shape> {
    let (left, right) = (place(from - off), place(to + off));
    let mut shapes = Vec::new();
    if right > left {
        shapes.push(Shape::Line {
            x1: left,
            y1: frame.open,
            x2: right,
            y2: frame.open,
            class: Class::Whisker,
        });
    }
    let middle = f64::midpoint(place(from), place(to));
    shapes.push(Shape::Path {
        d: format!("M{middle:.1},{} {}", frame.top, frame.plumb),
        class: Class::Plumb,
    });
    shapes
}
