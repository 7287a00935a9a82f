use super::warnings::Warning;
use crate::marking::Facts;
use crate::marking::heat_log::{Counted, Timeline};
use crate::present::heat_log::left_ms;
use crate::rubric::Rubric;
use crate::sheet::counted_words;

/// What a tile's clock shows.
pub(super) struct ClockWords {
    pub figure: String,
    pub of: String,
    pub is_over: bool,
}

/// The time that is left, or how long it has taken where no time is set.
pub(super) fn clock_words(rubric: &Rubric, facts: &Facts, line: &Timeline) -> ClockWords {
    let counted = facts.counted_ms(line);
    let Some(limit) = facts.allowed_ms(rubric) else {
        return ClockWords {
            figure: minutes(counted),
            of: "gone".to_owned(),
            is_over: false,
        };
    };
    let without = Facts::default().allowed_ms(rubric);
    let extra = if Some(limit) > without {
        " with extra time"
    } else {
        ""
    };
    let of = format!("of {}{extra}", minutes(limit));
    let is_over = counted > limit;
    ClockWords {
        figure: if is_over {
            format!("{} over", minutes(counted - limit))
        } else {
            minutes(left_ms(limit, counted))
        },
        of: if is_over { of } else { format!("left {of}") },
        is_over,
    }
}

/// `75:34`: minutes alone, as a figure on a tile is as narrow as can be.
fn minutes(ms: u64) -> String {
    let seconds = ms / 1_000;
    format!("{}:{:02}", seconds / 60, seconds % 60)
}

/// `7 of 9`; what nobody watched is not nothing.
pub(super) fn heat_words(heats: Counted, planned: u32) -> String {
    match heats {
        Counted::Known(count) if planned > 0 => format!("{count} of {planned}"),
        other => counted_words(other),
    }
}

/// What is warned of, and since when: each kind by its own words.
pub(super) fn warning_words(warning: &Warning, ms: u64) -> String {
    let what = match warning {
        Warning::Fault(name) => format!("Fault: {name}"),
        Warning::NearlyUp => "Time nearly up: 5 minutes left".to_owned(),
        Warning::Over => "Time over".to_owned(),
        Warning::OverPlan(count) => format!("More heats than the {count} planned"),
        Warning::OverAllowance(count) => format!("More heats than the {count} allowed"),
    };
    format!("{what}, at {}", minutes(ms))
}
