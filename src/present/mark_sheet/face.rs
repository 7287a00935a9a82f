use crate::chart::Drawing;
use crate::marking::{CriterionResult, Facts, Marking as Result, ResultState, State};
use crate::quantity::{Quantity, Unit};
use crate::rubric::Rubric;
use crate::sheet::{capital, drawn_scale};

use super::impression::row_impression;
use super::instruments::{chosen_instrument, with_words};
use super::plan::Row;
use super::tiles::sentences;

/// What one row shows for the facts of the moment.
#[derive(Debug, Clone, PartialEq)]
pub struct Face {
    /// What the style sheet calls its state.
    pub state: &'static str,
    /// Whether entering something would have no use.
    pub closed: bool,
    /// Marks, or a dash.
    pub marks: String,
    /// What they are of; empty for a reading that is not marked by itself.
    pub out_of: String,
    /// Why, in words.
    pub why: String,
    /// What is asked for, where that is an amount; empty where it is not.
    pub asked: String,
    /// What its readings are taken with, in words; empty where nothing measures them.
    pub with: String,
    /// The instrument chosen in place of the usual one.
    pub instrument: Option<String>,
    /// What should be taken again, and why; empty for nothing.
    pub doubts: String,
    /// What cannot be used: the entry or reading, and in words how to mend it.
    pub errors: Vec<(String, String)>,
    /// The tolerance with the reading on it.
    pub scale: Option<Drawing>,
    /// Ids of the faults ticked; `None` while nobody looked.
    pub faults: Option<Vec<String>>,
    /// The chosen level or number.
    pub level: Option<String>,
    /// Which state tile is chosen.
    pub chosen: Option<State>,
    /// Reason given for the state.
    pub reason: String,
    /// Marks by decision, as typed.
    pub decided: String,
    /// What is wrong with them; empty while nothing is.
    pub decided_wrong: String,
    /// Stops of this row.
    pub stops: Vec<StopLine>,
    /// Whether its level was given as the first impression, where the rubric counts that
    /// here; empty for every other row.
    pub first: String,
    /// Whether its level can no longer be changed.
    pub locked: bool,
}

impl Face {
    /// Everything that cannot be used, in one text.
    pub fn error_words(&self) -> String {
        self.errors
            .iter()
            .map(|(_, words)| words.as_str())
            .collect::<Vec<_>>()
            .join(" ")
    }

    /// Whether what stands in this reading cannot be used.
    pub fn is_wrong(&self, slot: &str) -> bool {
        self.errors.iter().any(|(id, _)| id == slot)
    }
}

/// A stop of a row.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StopLine {
    /// Why.
    pub why: String,
    /// Who set it aside and why.
    pub lifted: Option<(String, String)>,
}

/// What `row` shows.
pub fn face(rubric: &Rubric, row: &Row, facts: &Facts, result: &Result, sheet: Unit) -> Face {
    let found = if row.unmarked {
        None
    } else {
        result.criterion(&row.id)
    };
    let state = facts.states.get(&row.id).filter(|_| !row.unmarked);
    let stops = result
        .stops
        .iter()
        .filter(|stop| stop.entry == row.id && !row.unmarked);
    let (first, locked) = row_impression(rubric, &row.id, facts);
    Face {
        state: state_word(row, facts, found),
        closed: state.is_some(),
        marks: found
            .and_then(|found| found.marks)
            .map_or_else(|| "–".to_owned(), |marks| marks.to_string()),
        out_of: found.map_or_else(String::new, |found| found.out_of.to_string()),
        why: found.map_or_else(String::new, |found| found.reason.clone()),
        asked: asked(rubric, row, found, sheet).unwrap_or_default(),
        with: with_words(rubric, row, facts, sheet),
        instrument: chosen_instrument(row, facts),
        doubts: doubts(row, result),
        errors: errors(row, result),
        scale: found.and_then(|found| scale(rubric, row, found, sheet)),
        faults: facts.faults.get(&row.id).cloned(),
        level: facts.levels.get(&row.id).cloned(),
        chosen: state.map(|fact| fact.state),
        reason: state
            .and_then(|fact| fact.reason.clone())
            .unwrap_or_default(),
        decided: state
            .and_then(|fact| fact.marks.clone())
            .unwrap_or_default(),
        decided_wrong: state
            .and_then(|fact| fact.decided(row.most).err())
            .unwrap_or_default(),
        stops: stops
            .map(|stop| StopLine {
                why: stop.why.clone(),
                lifted: stop.lifted.clone(),
            })
            .collect(),
        first,
        locked,
    }
}

fn state_word(row: &Row, facts: &Facts, found: Option<&CriterionResult>) -> &'static str {
    match found.map(|found| found.state) {
        Some(ResultState::Valued) => "valued",
        Some(ResultState::Missing) => match facts.states.get(&row.id).map(|fact| fact.state) {
            Some(State::CannotMeasure) => "not-measured",
            _ => "missing",
        },
        Some(ResultState::NotMade) => "not-made",
        Some(ResultState::CannotMeasure) => "not-measured",
        Some(ResultState::NotApplicable) => "not-applicable",
        None => {
            let taken = facts
                .readings
                .get(&row.id)
                .is_some_and(|readings| readings.iter().any(|reading| reading.is_written()));
            if taken { "valued" } else { "missing" }
        }
    }
}

/// The target as worked out from other readings, or as the rubric names it.
fn asked(
    rubric: &Rubric,
    row: &Row,
    found: Option<&CriterionResult>,
    sheet: Unit,
) -> Option<String> {
    let entries = rubric.entries();
    let entry = entries.iter().find(|entry| entry.id == row.id)?;
    let scale = entry.criterion.scale()?;
    let target = scale.target.as_ref()?;
    let measured = found.and_then(|found| found.measured.as_ref());
    let worked = measured.and_then(|measured| measured.bands.target);
    let quantity = match worked {
        Some(base) => Quantity::new(scale.dimension, base),
        None => target.constant()?,
    };
    Some(format!("Asked for {}.", quantity.print_limit(sheet)))
}

/// Problems of the row and of the readings that are entered in it.
fn errors(row: &Row, result: &Result) -> Vec<(String, String)> {
    let own = |id: &str| id == row.id || row.slots().any(|slot| slot == id);
    let mut errors: Vec<(String, String)> = result
        .problems
        .iter()
        .filter(|problem| own(&problem.id))
        .map(|problem| (problem.id.clone(), problem.message.clone()))
        .collect();
    errors.dedup();
    errors
}

/// Readings of the row that should be taken again.
fn doubts(row: &Row, result: &Result) -> String {
    let own = |id: &str| row.slots().any(|slot| slot == id);
    let doubts = result.doubts.iter().filter(|doubt| own(&doubt.id));
    sentences(doubts.map(|doubt| Some(capital(&doubt.message))))
}

fn scale(rubric: &Rubric, row: &Row, found: &CriterionResult, sheet: Unit) -> Option<Drawing> {
    let entries = rubric.entries();
    let entry = entries.iter().find(|entry| entry.id == row.id)?;
    let most = entry.criterion.most_unweighted();
    drawn_scale(found.measured.as_ref()?, most, sheet, &row.name)
}
