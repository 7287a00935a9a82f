use chrono::{Datelike as _, NaiveDate};
use serde::{Deserialize, Serialize};

use super::class::Class;
use super::drawing::{Align, Drawing, Reading, Shape};

/// How high a flag is, and how far it hangs over the values.
const HEIGHT: f64 = 24.0;
const OVER: f64 = 6.0;
/// How wide a flag is, and what each sign on it adds.
const WIDTH: f64 = 10.0;
const SIGN: f64 = 13.0;
/// Room between two flags.
const GAP: f64 = 3.0;

/// Where the days of a drawing stand.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Days {
    /// The first day, counted from the first of the year 1.
    pub(super) first: i32,
    /// The last day, later than the first.
    pub(super) last: i32,
    /// Where the first one stands.
    pub(super) from: f64,
    /// Where the last one stands.
    pub(super) to: f64,
    /// Between which heights values stand.
    pub(super) top: f64,
    /// The lower of the two.
    pub(super) bottom: f64,
}

impl Days {
    /// Where a day stands; `None` before the first and after the last.
    fn place(&self, date: NaiveDate) -> Option<f64> {
        let day = date.num_days_from_ce();
        (self.first..=self.last).contains(&day).then(|| {
            let share = f64::from(day - self.first) / f64::from(self.last - self.first);
            self.from + share * (self.to - self.from)
        })
    }
}

/// Something that happened on a day.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Flag {
    /// When.
    pub date: NaiveDate,
    /// The number that stands on the flag, and beside the words elsewhere.
    pub number: usize,
    /// What is read off it.
    pub words: String,
}

/// `drawing` with an upright line at the day of each of `flags` and a flag with its number
/// over it, and which of them that are; those that would cover one another share a flag.
///
/// *Shape:* `flags` oldest first. Those before its first day or after its last are left
/// out, and so are all where it is not over days.
pub fn flagged(mut drawing: Drawing, flags: &[Flag]) -> (Drawing, Vec<&Flag>) {
    let Some(days) = drawing.days else {
        return (drawing, Vec::new());
    };
    let placed = flags.iter();
    let placed = placed.filter_map(|flag| Some((days.place(flag.date)?, flag)));
    let placed: Vec<(f64, &Flag)> = placed.collect();
    if placed.is_empty() {
        return (drawing, Vec::new());
    }
    let foot = days.top - OVER - 2.0;
    let poles = placed.iter().map(|(x, _)| Shape::Line {
        x1: *x,
        y1: foot - HEIGHT,
        x2: *x,
        y2: days.bottom,
        class: Class::FlagPole,
    });
    // Behind the values.
    drawing.shapes.splice(0..0, poles);
    let right = drawing.left + drawing.width;
    for group in groups(&placed) {
        drawing.shapes.extend(flag(&group, foot, right));
    }
    let top = foot - HEIGHT - GAP;
    if top < drawing.top {
        drawing.height += drawing.top - top;
        drawing.top = top;
    }
    let readings = placed.iter().map(|(x, flag)| Reading {
        x: *x,
        y: foot - HEIGHT / 2.0,
        words: flag.words.clone(),
    });
    drawing.readings.extend(readings);
    // They are walked through from left to right.
    drawing
        .readings
        .sort_by(|one, other| one.x.total_cmp(&other.x));
    (drawing, placed.into_iter().map(|(_, flag)| flag).collect())
}

/// Flags that stand as one: where its pole is, and what stands on it.
struct Group {
    x: f64,
    first: usize,
    last: usize,
}

impl Group {
    fn words(&self) -> String {
        match (self.first, self.last) {
            (first, last) if first == last => first.to_string(),
            (first, last) => format!("{first}\u{2013}{last}"),
        }
    }

    fn width(&self) -> f64 {
        let signs = u16::try_from(self.words().chars().count()).unwrap_or(u16::MAX);
        WIDTH + SIGN * f64::from(signs)
    }
}

fn groups(placed: &[(f64, &Flag)]) -> Vec<Group> {
    let mut groups: Vec<Group> = Vec::new();
    for (x, flag) in placed {
        match groups.last_mut() {
            Some(group) if *x - group.x < group.width() + GAP => group.last = flag.number,
            _ => groups.push(Group {
                x: *x,
                first: flag.number,
                last: flag.number,
            }),
        }
    }
    groups
}

/// A flag to the right of its pole, moved to the left where the drawing ends.
fn flag(group: &Group, foot: f64, right: f64) -> [Shape; 2] {
    let width = group.width();
    let left = group.x.min(right - width);
    [
        Shape::Rect {
            x: left,
            y: foot - HEIGHT,
            width,
            height: HEIGHT,
            class: Class::Flag,
            band: None,
        },
        Shape::Text {
            x: left + width / 2.0,
            y: foot - 5.0,
            align: Align::Middle,
            text: group.words(),
            class: Class::FlagWords,
        },
    ]
}
