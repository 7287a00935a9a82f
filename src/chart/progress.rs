use chrono::{Datelike as _, Months, NaiveDate};

use super::drawing::{Align, Drawing, Shape};

/// One piece on the chart.
#[derive(Debug, Clone, PartialEq)]
pub struct ProgressPoint {
    /// When it was made.
    pub date: NaiveDate,
    /// Its marks, per cent of what could be had.
    pub percent: f64,
    /// Its award was stopped: drawn open.
    pub stopped: bool,
}

/// The pass mark.
#[derive(Debug, Clone, PartialEq)]
pub struct PassMark {
    /// Per cent of what can be had.
    pub percent: f64,
    /// As people read it: `pass 65`.
    pub label: String,
}

const WIDTH: f64 = 600.0;
const HEIGHT: f64 = 240.0;
/// Where the axes stand; marks run from [`BOTTOM`] (0) to [`TOP`] (100).
const LEFT: f64 = 50.0;
const RIGHT: f64 = 590.0;
const TOP: f64 = 20.0;
const BOTTOM: f64 = 200.0;
/// Room between an axis and the first or last point.
const MARGIN: f64 = 20.0;
/// Room that one label under the chart takes.
const LABEL_ROOM: f64 = 84.0;

/// Marks in per cent over dates, in the order of `points`, with the pass mark.
///
/// *Shape:* any number of points; those of one day stand side by side as one
/// upright run. The first of each month is labelled, as far as there is room.
pub fn progress(
    title: String,
    description: String,
    points: &[ProgressPoint],
    pass: Option<&PassMark>,
) -> Drawing {
    let mut shapes = grid();
    let across = Across::of(points);
    if let Some(pass) = pass {
        let y = height_of(pass.percent);
        shapes.push(Shape::Path {
            d: format!("M{LEFT},{y:.1} H{RIGHT}"),
            class: "pass",
        });
        shapes.push(Shape::Text {
            x: RIGHT,
            // Above the line, or below it where a label would leave the chart.
            y: if y < TOP + 14.0 { y + 18.0 } else { y - 7.0 },
            align: Align::End,
            text: pass.label.clone(),
            class: "pass-label",
        });
    }
    let places: Vec<_> = points
        .iter()
        .map(|point| (across.of_date(point.date), height_of(point.percent)))
        .collect();
    if places.len() > 1 {
        let corners: Vec<_> = places
            .iter()
            .map(|(x, y)| format!("{x:.1},{y:.1}"))
            .collect();
        shapes.push(Shape::Path {
            d: format!("M{}", corners.join(" L")),
            class: "series",
        });
    }
    for (point, (x, y)) in points.iter().zip(places) {
        shapes.push(Shape::Circle {
            x,
            y,
            radius: 6.0,
            class: "point",
            kind: point.stopped.then_some("open"),
        });
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

fn height_of(percent: f64) -> f64 {
    BOTTOM - percent.clamp(0.0, 100.0) / 100.0 * (BOTTOM - TOP)
}

fn grid() -> Vec<Shape> {
    [0, 20, 40, 60, 80, 100]
        .into_iter()
        .flat_map(|percent| {
            let y = height_of(f64::from(percent));
            [
                Shape::Line {
                    x1: LEFT,
                    y1: y,
                    x2: RIGHT,
                    y2: y,
                    class: "grid-line",
                },
                Shape::Text {
                    x: LEFT - 10.0,
                    y: y + 5.0,
                    align: Align::End,
                    text: percent.to_string(),
                    class: "label",
                },
            ]
        })
        .collect()
}

/// The dates along the chart.
struct Across {
    first: NaiveDate,
    last: NaiveDate,
}

impl Across {
    fn of(points: &[ProgressPoint]) -> Self {
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
                class: "label",
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
