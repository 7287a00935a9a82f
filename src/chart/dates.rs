use chrono::{Datelike as _, Months, NaiveDate};

use super::class::Class;
use super::drawing::{Align, Shape};
use super::flags::Days;

/// Room that one label under the chart takes.
const LABEL_ROOM: f64 = 84.0;

/// The dates along the chart.
pub(super) struct Across {
    first: NaiveDate,
    last: NaiveDate,
    /// From where to where dates stand.
    from: f64,
    to: f64,
    /// Base line of their labels.
    base: f64,
}

impl Across {
    /// The dates `all` from the place `from` to the place `to`, labels standing on `base`.
    pub fn of(
        all: impl Iterator<Item = NaiveDate> + Clone,
        (from, to): (f64, f64),
        base: f64,
    ) -> Self {
        Self {
            first: all.clone().min().unwrap_or_default(),
            last: all.max().unwrap_or_default(),
            from,
            to,
            base,
        }
    }

    /// Where a date stands.
    pub fn of_date(&self, date: NaiveDate) -> f64 {
        let days = days_between(self.first, self.last);
        if days == 0.0 {
            return f64::midpoint(self.from, self.to);
        }
        let share = days_between(self.first, date) / days;
        self.from + share * (self.to - self.from)
    }

    /// Where days stand between `top` and `bottom`; `None` where there is but one.
    pub fn days(&self, (top, bottom): (f64, f64)) -> Option<Days> {
        (self.first < self.last).then(|| Days {
            first: self.first.num_days_from_ce(),
            last: self.last.num_days_from_ce(),
            from: self.from,
            to: self.to,
            top,
            bottom,
        })
    }

    /// The first of each month between the dates, or the first and last date
    /// where there are fewer than two of them.
    pub fn labels(&self) -> Vec<Shape> {
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
                y: self.base,
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
