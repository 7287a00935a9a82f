use crate::marking::Facts;
use crate::marking::heat_log::{Progress, Run, Timeline, What, timeline_at};
use crate::quantity::{Dimension, Duration, Moment, Unit, read_quantity};
use crate::rubric::Rubric;
use crate::sheet::spoken;

/// What changes from second to second.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct HeatClock {
    /// Time that counts so far: `12:34`; empty while nobody started the clock.
    pub time: String,
    /// What is left of the time allowed, or over it; empty where none is.
    pub left: String,
    /// Whether the time allowed is over.
    pub is_over: bool,
    /// Where the piece is, in words.
    pub state: String,
    /// What the state is called in the style sheet.
    pub kind: &'static str,
    /// How long it has been there: `0:48`; empty where that is of no use.
    pub since: String,
}

/// The clock of a heat log at this moment.
pub fn heat_clock(rubric: &Rubric, facts: &Facts, now: (Moment, Option<Run>)) -> HeatClock {
    let log = &facts.heat_log;
    let timeline = timeline_at(log, &log.parts(rubric), now);
    let (state, kind) = state_words(timeline.state);
    let is_timed = log.taps.iter().any(|tap| tap.what == What::Start);
    let left = limit_ms(rubric, facts).filter(|_| is_timed);
    let left = left.map(|limit| (limit, timeline.worked_ms));
    HeatClock {
        time: if is_timed {
            spoken(timeline.worked_ms)
        } else {
            String::new()
        },
        is_over: left.is_some_and(|(limit, worked)| worked > limit),
        left: left.map_or_else(String::new, |(limit, worked)| left_words(limit, worked)),
        state: state.to_owned(),
        kind,
        since: since(&timeline),
    }
}

fn left_words(limit: u64, worked: u64) -> String {
    if worked > limit {
        format!("{} over {}", spoken(worked - limit), spoken(limit))
    } else {
        // What is left is rounded up: it ends at nothing, not a second before.
        let left = (limit - worked).div_ceil(1000) * 1000;
        format!("{} left of {}", spoken(left), spoken(limit))
    }
}

fn since(timeline: &Timeline) -> String {
    let runs = matches!(
        timeline.state,
        Progress::AtAnvil | Progress::InFire | Progress::Paused
    );
    let last = timeline.stretches.last().filter(|_| runs);
    last.map_or_else(String::new, |last| {
        spoken(last.to_ms.saturating_sub(last.from_ms))
    })
}

/// Where a piece is, and what that is called in the style sheet.
pub(super) fn state_words(state: Progress) -> (&'static str, &'static str) {
    match state {
        Progress::NotStarted => ("Not started", "waits"),
        Progress::AtAnvil => ("At the anvil", "anvil"),
        Progress::InFire => ("In the fire", "fire"),
        Progress::Paused => ("Paused", "paused"),
        Progress::Finished => ("Finished", "ended"),
        Progress::Stopped(_) => ("Stopped", "ended"),
    }
}

/// The time allowed with what was added by arrangement, in milliseconds.
pub(super) fn limit_ms(rubric: &Rubric, facts: &Facts) -> Option<u64> {
    let limit = rubric.time.as_ref()?.limit.quantity();
    let extra = facts.extra_time.as_ref();
    let extra = extra
        .and_then(|extra| read_quantity(&extra.duration, Dimension::Duration, Unit::Minute).ok());
    let limit = extra.and_then(|extra| limit.plus(extra)).unwrap_or(limit);
    u64::try_from(Duration::nearest(limit)?.base()).ok()
}
