//! What came of the making: heats and time beside what is lost by step.

use crate::marking::heat_log::{
    Counted, PlannedPart, PlannedSpan, SharedTime, StepTime, TakenOver, Timeline, What,
    planned_spans, timeline,
};
use crate::marking::{CutFact, Facts, Marking as Outcome};
use crate::progress::steps_lost;
use crate::quantity::{Marks, counted};
use crate::rubric::{Rubric, TallyOf};

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
    /// Time that its planned heats have.
    time_planned: String,
    /// Time spent on it.
    time: String,
    /// Marks of the total lost by it, of what is marked so far.
    lost: String,
}

/// Every step that heats were planned for, that was named, or that lost marks.
fn made_steps(rubric: &Rubric, facts: &Facts, outcome: &Outcome) -> Vec<MadeStep> {
    let log = &facts.heat_log;
    let entered = log.afterwards.as_ref();
    let (_, spans) = planned_time(rubric, facts);
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
        let mut row = row(step_name(rubric, step), time, lost);
        row.time_planned = time_of(&spans, step);
        // What nobody tapped was perhaps entered.
        if time.is_none_or(|time| time.heats == 0)
            && let Some(heats) = entered.and_then(|entered| entered.heats.get(step))
        {
            row.made = heats.trim().to_owned();
        }
        counts.then_some(row)
    });
    let unnamed = lost_by(None).filter(|lost| *lost > Marks::ZERO);
    let unnamed = unnamed.map(|lost| row("No step named".to_owned(), None, Some(lost)));
    rows.chain(unnamed).collect()
}

fn row(step: String, time: Option<&StepTime>, lost: Option<Marks>) -> MadeStep {
    MadeStep {
        step,
        planned: time.map_or_else(nothing, |time| time.planned.to_string()),
        made: time.map_or_else(nothing, |time| time.heats.to_string()),
        time_planned: nothing(),
        time: time
            .filter(|time| time.ms > 0)
            .map_or_else(nothing, |time| spoken(time.ms)),
        lost: lost.map_or_else(nothing, |lost| lost.to_string()),
    }
}

/// The time that planned heats share, and the share of each part.
fn planned_time(rubric: &Rubric, facts: &Facts) -> (Option<SharedTime>, Vec<PlannedSpan>) {
    let parts = facts.heat_log.parts(rubric);
    let timeline = timeline(&facts.heat_log, &parts);
    let shared = facts.shared_time(rubric, &timeline);
    let spans = shared.map_or_else(Vec::new, |time| planned_spans(&parts, time));
    (shared.filter(|_| !spans.is_empty()), spans)
}

fn time_of(spans: &[PlannedSpan], step: &str) -> String {
    let spans = spans.iter();
    let spans = spans.filter(|span| span.step.as_deref() == Some(step));
    let ms: u64 = spans.map(|span| span.to_ms - span.from_ms).sum();
    if ms > 0 { spoken(ms) } else { nothing() }
}

/// What stands where nothing is known.
fn nothing() -> String {
    "–".to_owned()
}

/// What planned heats share, and how.
pub fn shared_words(time: SharedTime) -> String {
    let long = spoken(time.ms());
    match time {
        SharedTime::Allowed(_) => {
            format!("the time allowed of {long}, shared out evenly by heats")
        }
        SharedTime::Taken(_) => {
            format!("the {long} that it took, as no time is allowed, shared out evenly by heats")
        }
    }
}

/// The name of a step.
pub fn step_name(rubric: &Rubric, step: &str) -> String {
    let known = rubric.step(step);
    known.map_or_else(|| step.to_owned(), |step| step.name.clone())
}

/// What there is to count, each with its value: by the taps, or else as it was entered
/// afterwards.
pub fn made_totals(rubric: &Rubric, facts: &Facts) -> Vec<(&'static str, String)> {
    let parts = facts.heat_log.parts(rubric);
    let timeline = timeline(&facts.heat_log, &parts);
    let entered = |of| entered(facts, of);
    let of = |made: Counted, tally, planned: u32| {
        let entered = entered(tally).filter(|_| made.known().is_none());
        let made = entered.unwrap_or_else(|| counted_words(made));
        match planned {
            0 => made,
            planned => format!("{made}, {planned} planned"),
        }
    };
    let all = of(timeline.heats, TallyOf::Heats, planned(&parts, false));
    let cut = facts.cut.as_ref();
    let cut = cut.map(|cut| ("Bar cut to", cut_words(rubric, cut)));
    let mut totals: Vec<(&'static str, String)> = cut.into_iter().chain([("Heats", all)]).collect();
    let weld = planned(&parts, true);
    if weld > 0 || timeline.weld_heats != Counted::NotCounted {
        let weld = of(timeline.weld_heats, TallyOf::WeldHeats, weld);
        totals.push(("Weld heats", weld));
    }
    let time = entered(TallyOf::Time).filter(|_| timeline.time_ms.is_none());
    totals.push(("Time", time.unwrap_or_else(|| time_words(facts, &timeline))));
    let at_the_fire = facts.heat_log.afterwards.as_ref();
    let at_the_fire = at_the_fire.and_then(|entered| entered.at_the_fire.as_deref());
    if timeline.fire_ms + timeline.anvil_ms > 0 {
        totals.push(("In the fire", spoken(timeline.fire_ms)));
        totals.push(("Out of the fire", spoken(timeline.anvil_ms)));
    } else if let Some(text) = at_the_fire {
        totals.push(("In the fire", entered_words(text)));
    }
    totals
}

/// The length in the unit that it was typed in; what was typed where that cannot be read.
fn cut_words(rubric: &Rubric, cut: &CutFact) -> String {
    let typed = cut.text.trim();
    cut.read(rubric.unit).map_or_else(
        |_| format!("“{typed}”, which cannot be used"),
        |length| length.quantity().print(cut.meant(rubric.unit)),
    )
}

/// What was entered afterwards of a tally, in words.
fn entered(facts: &Facts, of: TallyOf) -> Option<String> {
    let entered = facts.heat_log.afterwards.as_ref()?;
    entered.text(of).map(|text| entered_words(&text))
}

fn entered_words(text: &str) -> String {
    format!("{} entered afterwards", text.trim())
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
pub fn counted_words(counted: Counted) -> String {
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

/// Whether anything of the making was tapped or entered.
pub fn making_is_told(facts: &Facts) -> bool {
    let log = &facts.heat_log;
    !log.taps.is_empty() || log.afterwards.is_some() || facts.cut.is_some()
}

/// Heats, time and marks lost by making step, where somebody tapped or entered them.
pub(super) fn making(scored: &Scored<'_>) -> Vec<Block> {
    let facts = &scored.parts.marking.facts;
    if !making_is_told(facts) {
        return Vec::new();
    }
    let totals = made_totals(scored.rubric, facts).into_iter();
    let totals = totals.map(|(label, value)| Fact {
        label: label.into(),
        value,
    });
    let mut blocks = vec![heading("Making"), Block::Facts(totals.collect())];
    let taken = facts.heat_log.taken_over.as_ref();
    blocks.extend(taken.map(|taken| Block::Paragraph(taken_over_words(taken))));
    let table = made_table(scored.rubric, facts, &scored.outcome);
    blocks.push(Block::Table(table));
    blocks
}

/// Where taps come from that another examiner made, by ids: an appeal finds the marking by them.
fn taken_over_words(taken: &TakenOver) -> String {
    format!(
        "The first {} taken over from another examiner’s heat log of this piece, {}: marking {}. \
         That examiner’s faults and notes were left out.",
        counted(
            usize::try_from(taken.taps).unwrap_or(usize::MAX),
            "tap was",
            "taps were"
        ),
        taken.at,
        taken.marking
    )
}

/// [`made_steps`] as a table.
pub fn made_table(rubric: &Rubric, facts: &Facts, outcome: &Outcome) -> Table {
    let rows = made_steps(rubric, facts, outcome).into_iter();
    let rows = rows.map(|row| {
        vec![
            Cell::text(row.step),
            figure(row.planned),
            figure(row.made),
            figure(row.time_planned),
            figure(row.time),
            figure(row.lost),
        ]
    });
    let (shared, _) = planned_time(rubric, facts);
    let shared = shared.map(|time| format!(". Time planned: {}", shared_words(time)));
    let caption =
        "Heats, time and marks lost by making step".to_owned() + &shared.unwrap_or_default();
    let heads = [
        ("Step", CellRole::Text),
        ("Heats planned", CellRole::Number),
        ("Made", CellRole::Number),
        ("Time planned", CellRole::Number),
        ("Time", CellRole::Number),
        ("Marks lost", CellRole::Number),
    ];
    plain_table(caption, columns(&heads), rows.collect())
}
