use super::buttons::{clock, what_words};
use super::clock::{counted_words, spoken};
use super::drawn::drawn;
use crate::chart::Drawing;
use crate::marking::Facts;
use crate::marking::heat_log::{Counted, Jump, PlannedPart, StepTime, Timeline, What, timeline};
use crate::rubric::Rubric;

/// What came of the making.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct HeatResult {
    /// What counts, each with its value.
    pub totals: Vec<(&'static str, String)>,
    /// By making step.
    pub rows: Vec<HeatRow>,
    /// When each step was worked on; `None` while there is nothing to draw.
    pub drawing: Option<Drawing>,
    /// Where the clocks did not agree, in words.
    pub jumps: Vec<String>,
    /// Every tap with its time, the last one first.
    pub taps: Vec<String>,
}

/// One making step.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct HeatRow {
    /// Its name.
    pub step: String,
    /// Heats planned.
    pub planned: String,
    /// Heats made.
    pub made: String,
    /// Time spent on it.
    pub time: String,
}

/// What came of the making so far.
pub fn heat_result(rubric: &Rubric, facts: &Facts) -> HeatResult {
    let log = &facts.heat_log;
    let parts = log.parts(rubric);
    let timeline = timeline(log, &parts);
    let taps = log.taps.iter().rev();
    HeatResult {
        totals: totals(facts, &timeline, &parts),
        rows: timeline
            .steps
            .iter()
            .map(|time| row(rubric, time))
            .collect(),
        drawing: drawn(rubric, facts, &timeline),
        jumps: timeline
            .jumps
            .iter()
            .map(|jump| jump_words(rubric, facts, jump))
            .collect(),
        taps: taps
            .map(|tap| format!("{}  {}", clock(tap.at), what_words(rubric, &tap.what)))
            .collect(),
    }
}

fn totals(
    facts: &Facts,
    timeline: &Timeline,
    parts: &[PlannedPart],
) -> Vec<(&'static str, String)> {
    let planned = |weld_only: bool| -> u32 {
        let parts = parts.iter().filter(|part| part.weld || !weld_only);
        parts.fold(0, |sum, part| sum.saturating_add(part.count))
    };
    let of = |made: String, planned: u32| match planned {
        0 => made,
        planned => format!("{made}, {planned} planned"),
    };
    let weld = planned(true);
    let mut totals = vec![("Heats", of(counted_words(timeline.heats), planned(false)))];
    if weld > 0 || timeline.weld_heats != Counted::NotCounted {
        totals.push(("Weld heats", of(counted_words(timeline.weld_heats), weld)));
    }
    let taps = &facts.heat_log.taps;
    let is_timed = taps.iter().any(|tap| tap.what == What::Start);
    let time = timeline.time_ms.map_or_else(
        || match (is_timed, timeline.state.has_ended()) {
            (false, _) => "not taken".to_owned(),
            (true, false) => "still running".to_owned(),
            (true, true) => format!("stopped after {}", spoken(timeline.worked_ms)),
        },
        spoken,
    );
    totals.push(("Time", time));
    if timeline.fire_ms + timeline.anvil_ms > 0 {
        totals.push(("In the fire", spoken(timeline.fire_ms)));
        totals.push(("Out of the fire", spoken(timeline.anvil_ms)));
    }
    totals
}

/// The name of a step.
pub(super) fn step_name(rubric: &Rubric, step: &str) -> String {
    let known = rubric.step(step);
    known.map_or_else(|| step.to_owned(), |step| step.name.clone())
}

fn row(rubric: &Rubric, time: &StepTime) -> HeatRow {
    HeatRow {
        step: step_name(rubric, &time.step),
        planned: time.planned.to_string(),
        made: time.heats.to_string(),
        time: if time.ms == 0 {
            "–".to_owned()
        } else {
            spoken(time.ms)
        },
    }
}

/// Where and by how much the clocks did not agree, and what counts.
fn jump_words(rubric: &Rubric, facts: &Facts, jump: &Jump) -> String {
    let tap = facts.heat_log.taps.get(jump.tap);
    let before = tap.map_or_else(
        || "Since the last tap".to_owned(),
        |tap| {
            format!(
                "Before “{}” at {}",
                what_words(rubric, &tap.what),
                clock(tap.at)
            )
        },
    );
    let counted = spoken(jump.counted_ms);
    match (u64::try_from(jump.clock_ms), jump.page_ms) {
        (Err(_), None) => format!(
            "{before} the device’s clock was put back while the page was closed: nothing counts \
             there. Say in a note how long it was."
        ),
        (Ok(clock), Some(page)) if clock > page => format!(
            "{before} the device’s clock ran {} and the page’s {}: the device slept, or its clock \
             was put forward. {counted} counts.",
            spoken(clock),
            spoken(page),
        ),
        _ => format!(
            "{before} the device’s clock was put back. By the page’s own clock {counted} counts."
        ),
    }
}
