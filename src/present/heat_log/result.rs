use super::drawn::drawn;
use super::words::{clock, what_words};
use crate::chart::Drawing;
use crate::marking::heat_log::{Jump, timeline};
use crate::marking::{Facts, mark_in};
use crate::quantity::Unit;
use crate::rubric::Rubric;
use crate::sheet::{Table, made_table, made_totals, spoken};

/// What came of the making.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct HeatResult {
    /// What counts, each with its value.
    pub totals: Vec<(&'static str, String)>,
    /// By making step; `None` before anything is known.
    pub table: Option<Table>,
    /// When each step was planned and worked on, with what says how to read it; `None` while there
    /// is nothing to draw.
    pub drawing: Option<(Drawing, String)>,
    /// Where the clocks did not agree, in words.
    pub jumps: Vec<String>,
    /// Every tap with its time, the last one first.
    pub taps: Vec<String>,
}

/// What came of the making so far. `unit` is what a bare number means on the sheet.
pub fn heat_result(rubric: &Rubric, facts: &Facts, unit: Unit) -> HeatResult {
    let log = &facts.heat_log;
    let parts = log.parts(rubric);
    let timeline = timeline(log, &parts);
    let taps = log.taps.iter().rev();
    let outcome = mark_in(rubric, facts, unit);
    HeatResult {
        totals: made_totals(rubric, facts),
        table: Some(made_table(rubric, facts, &outcome)),
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
