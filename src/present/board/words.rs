use crate::marking::Facts;
use crate::marking::heat_log::{Counted, Progress, Timeline};
use crate::quantity::{Dimension, Unit, read_quantity};
use crate::rubric::Rubric;

/// What a tile's clock shows.
pub(super) struct ClockWords {
    pub figure: String,
    pub of: String,
    pub is_over: bool,
}

/// The time that is left, or how long it has taken where no time is set. Pauses and extra time
/// count only where they can be read.
pub(super) fn clock_words(rubric: &Rubric, facts: &Facts, line: &Timeline) -> ClockWords {
    let worked = i128::from(line.time_ms.unwrap_or(line.worked_ms));
    let Some(rule) = &rubric.time else {
        return ClockWords {
            figure: minutes(worked),
            of: "gone".to_owned(),
            is_over: false,
        };
    };
    let stood = facts.pauses.iter().map(|pause| read_ms(&pause.duration));
    let stood: i128 = stood.sum();
    let extra = facts.extra_time.as_ref();
    let extra = extra.map_or(0, |extra| read_ms(&extra.duration));
    let limit = rule.limit.quantity().base.floor().saturating_add(extra);
    let left = limit.saturating_sub(worked.saturating_sub(stood));
    let extra = if extra > 0 { " with extra time" } else { "" };
    let of = format!("of {}{extra}", minutes(limit));
    ClockWords {
        figure: if left < 0 {
            format!("{} over", minutes(left.saturating_neg()))
        } else {
            minutes(left)
        },
        of: if left < 0 { of } else { format!("left {of}") },
        is_over: left < 0,
    }
}

/// Milliseconds of a time as typed; nothing where it cannot be read.
fn read_ms(text: &str) -> i128 {
    let read = read_quantity(text, Dimension::Duration, Unit::Minute);
    read.map_or(0, |time| time.base.floor().max(0))
}

/// `12:34`, whole seconds: what is left of one is left out.
fn minutes(ms: i128) -> String {
    let seconds = ms.max(0) / 1_000;
    format!("{}:{:02}", seconds / 60, seconds % 60)
}

/// `7 of 9`; what nobody watched is not nothing.
pub(super) fn heat_words(heats: Counted, planned: u32) -> String {
    match heats {
        Counted::Known(count) if planned > 0 => format!("{count} of {planned}"),
        Counted::Known(count) => count.to_string(),
        Counted::AtLeast(count) => format!("at least {count}"),
        Counted::NotCounted => "not counted".to_owned(),
    }
}

/// A fault and when it was seen.
pub(super) fn last_words(name: &str, ms: u64) -> String {
    format!("{name}, at {}", minutes(i128::from(ms)))
}

/// How far making has come.
pub(super) fn state_words(state: Progress, has_started: bool) -> &'static str {
    match state {
        Progress::Paused => "paused",
        Progress::Finished => "finished",
        Progress::Stopped(_) => "stopped",
        _ if !has_started => "not started",
        Progress::InFire => "in the fire",
        Progress::NotStarted | Progress::AtAnvil => "at the anvil",
    }
}
