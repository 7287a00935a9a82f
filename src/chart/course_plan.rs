use chrono::NaiveDate;

use super::class::Class;
use super::symbol::Symbol;

/// A value of one day.
#[derive(Debug, Clone, PartialEq)]
pub struct CoursePoint {
    /// When.
    pub date: NaiveDate,
    /// How much.
    pub value: f64,
    /// What it looks like.
    pub symbol: Symbol,
    /// Drawn open, and joined with nothing.
    pub is_open: bool,
    /// A line joins the points of one run, in their order.
    pub run: usize,
    /// Another value of the same thing, drawn open beside it and tied to it.
    pub beside: Option<(f64, Symbol)>,
    /// From where to where the value may lie, as far as that is known.
    pub reach: Option<(f64, f64)>,
    /// What is read off here: the day, the value and what it is.
    pub words: String,
}

/// What may come next, drawn as a band at the right end.
#[derive(Debug, Clone, PartialEq)]
pub struct Ahead {
    /// The least.
    pub low: f64,
    /// What lies in the middle.
    pub middle: f64,
    /// The most.
    pub high: f64,
    /// What is read off it.
    pub words: String,
}

/// A line that is worked out from the points, with a height at the place of each.
#[derive(Debug, Clone, PartialEq)]
pub struct CourseLine {
    /// How high it is at each point, in their order.
    pub heights: Vec<f64>,
    /// What it is.
    pub class: Class,
}

/// What a course is drawn from.
#[derive(Debug, Clone, Copy)]
pub struct CoursePlan<'a> {
    /// The upright axis.
    pub axis: &'a Axis,
    /// The values; those of one day stand side by side as one upright run.
    pub points: &'a [CoursePoint],
    /// What they are held against.
    pub level: Option<&'a Level>,
    /// What may come next.
    pub ahead: Option<&'a Ahead>,
    /// Lines that are worked out from them.
    pub lines: &'a [CourseLine],
}

impl<'a> CoursePlan<'a> {
    /// Values alone.
    pub fn of(axis: &'a Axis, points: &'a [CoursePoint]) -> Self {
        Self {
            axis,
            points,
            level: None,
            ahead: None,
            lines: &[],
        }
    }
}

/// A line that values are held against: a pass mark, an allowance.
#[derive(Debug, Clone, PartialEq)]
pub struct Level {
    /// How much.
    pub value: f64,
    /// As people read it: `pass 65 %`.
    pub label: String,
}

/// The upright axis, from 0.
#[derive(Debug, Clone, PartialEq)]
pub struct Axis {
    /// Its top, above 0.
    pub most: f64,
    /// Values that are labelled, with their labels.
    pub ticks: Vec<(f64, String)>,
}

impl Axis {
    /// Per cent, from 0 to 100.
    pub fn percent() -> Self {
        let ticks = [0_u8, 20, 40, 60, 80, 100];
        Self {
            most: 100.0,
            ticks: ticks
                .map(|tick| (f64::from(tick), tick.to_string()))
                .to_vec(),
        }
    }

    /// From 0 to at least `most`, with at most seven ticks at round whole numbers.
    pub fn up_to(most: f64) -> Self {
        let mut step = 1.0;
        // 1, 2, 5, 10 and so on; a length of time or a count is far below the last.
        for factor in [2.0, 2.5, 2.0].into_iter().cycle().take(30) {
            if step * 6.0 >= most {
                break;
            }
            step *= factor;
        }
        let mut ticks = vec![(0.0, "0".to_owned())];
        let mut top = 0.0;
        while top < most.max(1.0) && ticks.len() < 7 {
            top += step;
            ticks.push((top, top.to_string()));
        }
        Self { most: top, ticks }
    }
}
