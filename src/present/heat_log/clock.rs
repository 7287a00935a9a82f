use super::words::state_words;
use crate::marking::Facts;
use crate::marking::heat_log::{Progress, Run, Timeline, What, timeline_at};
use crate::quantity::Moment;
use crate::rubric::Rubric;
use crate::sheet::{capital, spoken};

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
    let is_timed = log.taps.iter().any(|tap| tap.what == What::Start);
    let counted = facts.counted_ms(&timeline);
    let left = facts.allowed_ms(rubric).filter(|_| is_timed);
    let left = left.map(|limit| (limit, counted));
    HeatClock {
        time: if is_timed {
            spoken(counted)
        } else {
            String::new()
        },
        is_over: left.is_some_and(|(limit, worked)| worked > limit),
        left: left.map_or_else(String::new, |(limit, worked)| left_words(limit, worked)),
        state: capital(state_words(timeline.state)),
        kind: kind_of(timeline.state),
        since: since(&timeline),
    }
}

fn left_words(limit: u64, worked: u64) -> String {
    if worked > limit {
        format!("{} over {}", spoken(worked - limit), spoken(limit))
    } else {
        format!(
            "{} left of {}",
            spoken(left_ms(limit, worked)),
            spoken(limit)
        )
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

/// What a state is called in the style sheet.
fn kind_of(state: Progress) -> &'static str {
    match state {
        Progress::NotStarted => "waits",
        Progress::AtAnvil => "anvil",
        Progress::InFire => "fire",
        Progress::Paused => "paused",
        Progress::Finished | Progress::Stopped(_) => "ended",
    }
}

/// What is left in milliseconds: whole seconds rounded up, so that it ends at nothing and not a
/// second before.
pub(in crate::present) fn left_ms(limit: u64, counted: u64) -> u64 {
    limit.saturating_sub(counted).div_ceil(1_000) * 1_000
}
