//! What came of the making: heats and time beside what is lost by step.

use crate::marking::heat_log::{Counted, PlannedPart, StepTime, Timeline, What, timeline};
use crate::marking::{Facts, Marking as Outcome};
use crate::progress::steps_lost;
use crate::quantity::Marks;
use crate::rubric::Rubric;

use super::document::{Block, Cell, CellRole, Fact, Table, columns, figure, plain_table};
use super::scored::{Scored, heading};

/// One making step.
#[derive(Debug, Clone, PartialEq, Eq)]
struct MadeStep {
    /// Its name.
    step: String,
    /// Heats planned.
    planned: String,
    /// Heats made.
    made: String,
    /// Time spent on it.
    time: String,
    /// Marks of the total lost by it, of what is marked so far.
    lost: String,
}

/// Every step that heats were planned for, that was named, or that lost marks.
fn made_steps(rubric: &Rubric, facts: &Facts, outcome: &Outcome) -> Vec<MadeStep> {
    let log = &facts.heat_log;
    let times = timeline(log, &log.parts(rubric)).steps;
    let lost = steps_lost(rubric, outcome);
    let lost_by = |step: Option<&str>| lost.get(&step.map(str::to_owned)).copied();
    let timed = |step: &str| times.iter().find(|time| time.step == step);
    let is_known = |time: &&StepTime| rubric.step(&time.step).is_some();
    let strange = times.iter().filter(|time| !is_known(time));
    let steps = rubric.steps.iter().map(|step| step.id.as_str());
    let all = steps.chain(strange.map(|time| time.step.as_str()));
    let rows = all.filter_map(|step| {
        let (time, lost) = (timed(step), lost_by(Some(step)));
        let counts = lost.filter(|lost| *lost > Marks::ZERO).is_some() || time.is_some();
        counts.then(|| row(step_name(rubric, step), time, lost))
    });
    let unnamed = lost_by(None).filter(|lost| *lost > Marks::ZERO);
    let unnamed = unnamed.map(|lost| row("No step named".to_owned(), None, Some(lost)));
    rows.chain(unnamed).collect()
}

fn row(step: String, time: Option<&StepTime>, lost: Option<Marks>) -> MadeStep {
    let nothing = || "–".to_owned();
    MadeStep {
        step,
        planned: time.map_or_else(nothing, |time| time.planned.to_string()),
        made: time.map_or_else(nothing, |time| time.heats.to_string()),
        time: time
            .filter(|time| time.ms > 0)
            .map_or_else(nothing, |time| spoken(time.ms)),
        lost: lost.map_or_else(nothing, |lost| lost.to_string()),
    }
}

/// The name of a step.
pub fn step_name(rubric: &Rubric, step: &str) -> String {
    let known = rubric.step(step);
    known.map_or_else(|| step.to_owned(), |step| step.name.clone())
}

/// What there is to count, each with its value.
pub fn made_totals(rubric: &Rubric, facts: &Facts) -> Vec<(&'static str, String)> {
    let parts = facts.heat_log.parts(rubric);
    let timeline = timeline(&facts.heat_log, &parts);
    let of = |made: Counted, planned: u32| match planned {
        0 => counted_words(made),
        planned => format!("{}, {planned} planned", counted_words(made)),
    };
    let weld = planned(&parts, true);
    let mut totals = vec![("Heats", of(timeline.heats, planned(&parts, false)))];
    if weld > 0 || timeline.weld_heats != Counted::NotCounted {
        totals.push(("Weld heats", of(timeline.weld_heats, weld)));
    }
    totals.push(("Time", time_words(facts, &timeline)));
    if timeline.fire_ms + timeline.anvil_ms > 0 {
        totals.push(("In the fire", spoken(timeline.fire_ms)));
        totals.push(("Out of the fire", spoken(timeline.anvil_ms)));
    }
    totals
}

fn planned(parts: &[PlannedPart], weld_only: bool) -> u32 {
    let parts = parts.iter().filter(|part| part.weld || !weld_only);
    parts.fold(0, |sum, part| sum.saturating_add(part.count))
}

fn time_words(facts: &Facts, timeline: &Timeline) -> String {
    let taps = &facts.heat_log.taps;
    let is_timed = taps.iter().any(|tap| tap.what == What::Start);
    match (timeline.time_ms, is_timed, timeline.state.has_ended()) {
        (Some(ms), ..) => spoken(ms),
        (None, false, _) => "not taken".to_owned(),
        (None, true, false) => "still running".to_owned(),
        (None, true, true) => format!("stopped after {}", spoken(timeline.worked_ms)),
    }
}

/// A count as people read it.
fn counted_words(counted: Counted) -> String {
    match counted {
        Counted::Known(count) => count.to_string(),
        Counted::AtLeast(count) => format!("at least {count}"),
        Counted::NotCounted => "not counted".to_owned(),
    }
}

/// Whole seconds of so many milliseconds: `4:05`, `1:02:09`.
pub fn spoken(ms: u64) -> String {
    let seconds = ms / 1000;
    let (hours, minutes, seconds) = (seconds / 3600, seconds / 60 % 60, seconds % 60);
    if hours > 0 {
        format!("{hours}:{minutes:02}:{seconds:02}")
    } else {
        format!("{minutes}:{seconds:02}")
    }
}

/// Heats, time and marks lost by making step, where somebody tapped.
pub(super) fn making(scored: &Scored<'_>) -> Vec<Block> {
    let facts = &scored.parts.marking.facts;
    if facts.heat_log.taps.is_empty() {
        return Vec::new();
    }
    let totals = made_totals(scored.rubric, facts).into_iter();
    let totals = totals.map(|(label, value)| Fact {
        label: label.into(),
        value,
    });
    vec![
        heading("Making"),
        Block::Facts(totals.collect()),
        Block::Table(made_table(scored.rubric, facts, &scored.outcome)),
    ]
}

/// [`made_steps`] as a table.
pub fn made_table(rubric: &Rubric, facts: &Facts, outcome: &Outcome) -> Table {
    let rows = made_steps(rubric, facts, outcome).into_iter();
    let rows = rows.map(|row| {
        vec![
            Cell::text(row.step),
            figure(row.planned),
            figure(row.made),
            figure(row.time),
            figure(row.lost),
        ]
    });
    let heads = [
        ("Step", CellRole::Text),
        ("Heats planned", CellRole::Number),
        ("Made", CellRole::Number),
        ("Time", CellRole::Number),
        ("Marks lost", CellRole::Number),
    ];
    plain_table(
        "Heats, time and marks lost by making step".to_owned(),
        columns(&heads),
        rows.collect(),
    )
}
