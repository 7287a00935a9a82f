use super::class::Class;
use chrono::{Datelike as _, Months, NaiveDate};

use super::drawing::{Align, Drawing, Shape, path_through};
use super::grid::grid_line;
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

const WIDTH: f64 = 600.0;
const HEIGHT: f64 = 240.0;
/// Where the axes stand; values run from [`BOTTOM`] (0) to [`TOP`].
const LEFT: f64 = 50.0;
const RIGHT: f64 = 590.0;
const TOP: f64 = 20.0;
const BOTTOM: f64 = 200.0;
/// Room between an axis and the first or last point.
const MARGIN: f64 = 20.0;
/// Room that one label under the chart takes.
const LABEL_ROOM: f64 = 84.0;
/// Room that the label of a level takes.
const LEVEL_ROOM: f64 = 150.0;
/// Half the width of a point.
const RADIUS: f64 = 6.0;

/// Values over dates, in the order of `points`, held against a level.
///
/// *Shape:* any number of points; those of one day stand side by side as one
/// upright run. The first of each month is labelled, as far as there is room.
pub fn course(
    title: String,
    description: String,
    axis: &Axis,
    points: &[CoursePoint],
    level: Option<&Level>,
) -> Drawing {
    let up = |value: f64| height_of(value, axis);
    let mut shapes = grid(axis);
    let across = Across::of(points);
    let places: Vec<_> = points
        .iter()
        .map(|point| (across.of_date(point.date), up(point.value)))
        .collect();
    let level = level.map(|level| level_line(level, up(level.value), &places));
    shapes.extend(level.into_iter().flatten());
    shapes.extend(lines(points, &places));
    for (point, (x, y)) in points.iter().zip(&places) {
        if let Some((value, symbol)) = point.beside {
            let beside = up(value);
            shapes.push(Shape::Line {
                x1: *x,
                y1: *y,
                x2: *x,
                y2: beside,
                class: Class::Tie,
            });
            shapes.push(symbol.shape((*x, beside), RADIUS, true));
        }
    }
    for (point, place) in points.iter().zip(places) {
        shapes.push(point.symbol.shape(place, RADIUS, point.is_open));
    }
    shapes.extend(across.labels());
    Drawing {
        left: 0.0,
        top: 0.0,
        width: WIDTH,
        height: HEIGHT,
        title,
        description,
        shapes,
    }
}

/// One line for each run of two points or more.
fn lines(points: &[CoursePoint], places: &[(f64, f64)]) -> Vec<Shape> {
    let mut runs: Vec<(usize, Vec<(f64, f64)>)> = Vec::new();
    for (point, place) in points
        .iter()
        .zip(places)
        .filter(|(point, _)| !point.is_open)
    {
        match runs.iter_mut().find(|(run, _)| *run == point.run) {
            Some((_, corners)) => corners.push(*place),
            None => runs.push((point.run, vec![*place])),
        }
    }
    let runs = runs.into_iter().filter(|(_, corners)| corners.len() > 1);
    runs.map(|(_, corners)| Shape::Path {
        d: path_through(corners),
        class: Class::Series,
    })
    .collect()
}

/// The level with its label, at that end of it where the points leave more room.
fn level_line(level: &Level, y: f64, places: &[(f64, f64)]) -> [Shape; 2] {
    // Above the line, or below it where a label would leave the chart.
    let base = if y < TOP + 14.0 { y + 18.0 } else { y - 7.0 };
    let room = |is_near: fn(f64) -> bool| {
        let near = places.iter().filter(|(x, _)| is_near(*x));
        let room = near.map(|(_, there)| (there - (base - 5.0)).abs());
        room.fold(f64::INFINITY, f64::min)
    };
    let is_right = room(|x| x > RIGHT - LEVEL_ROOM) >= room(|x| x < LEFT + LEVEL_ROOM);
    let (x, align) = if is_right {
        (RIGHT, Align::End)
    } else {
        (LEFT, Align::Start)
    };
    [
        Shape::Path {
            d: format!("M{LEFT},{y:.1} H{RIGHT}"),
            class: Class::Pass,
        },
        Shape::Text {
            x,
            y: base,
            align,
            text: level.label.clone(),
            class: Class::PassLabel,
        },
    ]
}

fn height_of(value: f64, axis: &Axis) -> f64 {
    BOTTOM - (value / axis.most).clamp(0.0, 1.0) * (BOTTOM - TOP)
}

fn grid(axis: &Axis) -> Vec<Shape> {
    let line = |(value, label): &(f64, String)| {
        let y = height_of(*value, axis);
        grid_line(LEFT, RIGHT, y, label.clone())
    };
    axis.ticks.iter().flat_map(line).collect()
}

/// The dates along the chart.
struct Across {
    first: NaiveDate,
    last: NaiveDate,
}

impl Across {
    fn of(points: &[CoursePoint]) -> Self {
        let dates = || points.iter().map(|point| point.date);
        Self {
            first: dates().min().unwrap_or_default(),
            last: dates().max().unwrap_or_default(),
        }
    }

    fn of_date(&self, date: NaiveDate) -> f64 {
        let days = days_between(self.first, self.last);
        if days == 0.0 {
            return f64::midpoint(LEFT, RIGHT);
        }
        let share = days_between(self.first, date) / days;
        LEFT + MARGIN + share * (RIGHT - LEFT - 2.0 * MARGIN)
    }

    /// The first of each month between the dates, or the first and last date
    /// where there are fewer than two of them.
    fn labels(&self) -> Vec<Shape> {
        let mut labels = Vec::new();
        let mut end = f64::NEG_INFINITY;
        let mut year = None;
        for date in self.ticks() {
            let x = self.of_date(date);
            if x - end < LABEL_ROOM {
                continue;
            }
            end = x;
            let form = match (date.day(), year == Some(date.year())) {
                (1, true) => "%b",
                (1, false) => "%b %Y",
                (_, true) => "%-d %b",
                (_, false) => "%-d %b %Y",
            };
            year = Some(date.year());
            labels.push(Shape::Text {
                x,
                y: BOTTOM + 24.0,
                align: Align::Middle,
                text: date.format(form).to_string(),
                class: Class::Label,
            });
        }
        labels
    }

    fn ticks(&self) -> Vec<NaiveDate> {
        let months = months_between(self.first, self.last);
        if months.len() >= 2 {
            return months;
        }
        let mut ends = vec![self.first, self.last];
        ends.dedup();
        ends
    }
}

fn days_between(from: NaiveDate, to: NaiveDate) -> f64 {
    let days = to.signed_duration_since(from).num_days();
    // A calendar's days are far below what an f64 holds exactly.
    i32::try_from(days).map_or(0.0, f64::from)
}

/// The first days of months from `first` to `last`, thinned to at most eight.
fn months_between(first: NaiveDate, last: NaiveDate) -> Vec<NaiveDate> {
    let Some(mut month) = first.with_day(1) else {
        return Vec::new();
    };
    if month < first {
        month = month.checked_add_months(Months::new(1)).unwrap_or(last);
    }
    let count = (last.year() - month.year()) * 12 + i32::try_from(last.month()).unwrap_or(0)
        - i32::try_from(month.month()).unwrap_or(0)
        + 1;
    let step = u32::try_from(count).unwrap_or(0).div_ceil(8).max(1);
    let mut months = Vec::new();
    while month <= last {
        months.push(month);
        let Some(next) = month.checked_add_months(Months::new(step)) else {
            break;
        };
        month = next;
    }
    months
}
