use crate::records::{Day, Moment};

/// A day with its weekday: `Wednesday 25 Nov 2026`.
pub fn long_day(day: Day) -> String {
    format!("{} {day}", day.weekday())
}

/// A day with its month in full: `1 September 2026`.
pub(super) fn day_in_full(day: Day) -> String {
    day.date().format("%-d %B %Y").to_string()
}

/// A day as people near it say it: `today`, `yesterday`, else `25 Nov 2026`.
pub fn when(day: Day, today: Day) -> String {
    match today.days_since(day) {
        0 => "today".to_owned(),
        1 => "yesterday".to_owned(),
        _ => day.to_string(),
    }
}

/// A moment as people near it say it: `10:42`, `yesterday 10:42`, else
/// `25 Nov 2026 10:42`.
pub fn when_clock(moment: Moment, now: Moment) -> String {
    match now.day().days_since(moment.day()) {
        0 => moment.clock(),
        1 => format!("yesterday {}", moment.clock()),
        _ => moment.to_string(),
    }
}
