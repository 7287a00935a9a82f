use crate::marking::{Facts, InstrumentFact, instrument, is_photo_gauge};
use crate::quantity::{Dimension, Unit};
use crate::records::Ledger;
use crate::rubric::{Instrument, Rubric};
use crate::sheet::{StatedReadings, off_words};

use super::plan::{Row, RowForm};

/// An instrument that a row's readings may be taken with.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct InstrumentTile {
    /// Its short name.
    pub id: String,
    /// Name for people.
    pub name: String,
    /// How wrong one reading can be.
    pub about: String,
    /// What a choice of it sets: `None` for the usual one.
    pub sets: Option<String>,
    /// Its figures, where they are the ledger's and not in the marking yet.
    pub own: Option<InstrumentFact>,
}

/// What is measured in a row; `None` for a row without readings of its own.
fn dimension(row: &Row) -> Option<Dimension> {
    match &row.form {
        RowForm::Readings { inputs, .. } => Some(inputs.first()?.dimension),
        _ => None,
    }
}

/// Whether the row has readings that an instrument takes; things are counted by hand.
pub fn takes_instrument(row: &Row) -> bool {
    dimension(row).is_some_and(|dimension| dimension != Dimension::Count)
}

/// The instrument chosen for a row in place of its usual one.
pub fn chosen_instrument(row: &Row, facts: &Facts) -> Option<String> {
    let readings = row.slots().filter_map(|slot| facts.readings.get(slot));
    let mut named = readings
        .flatten()
        .filter_map(|reading| reading.instrument.as_ref());
    named
        .find(|id| row.instrument.as_ref() != Some(id))
        .cloned()
}

/// What a row's readings are taken with, in words: `Steel rule, off by at most 0.5 mm`; where
/// they state how sure they are, that. Empty for a row that takes none.
pub(super) fn with_words(rubric: &Rubric, row: &Row, facts: &Facts, sheet: Unit) -> String {
    if !takes_instrument(row) {
        return String::new();
    }
    let Some(id) = chosen_instrument(row, facts).or_else(|| row.instrument.clone()) else {
        return "No instrument is named".to_owned();
    };
    match instrument(rubric, facts, &id) {
        Some(found) => {
            let off = own_words(rubric, row, facts, &found, sheet);
            let off = off.unwrap_or_else(|| off_words(found.uncertainty, sheet));
            format!("{}, {off}", found.name)
        }
        None => id,
    }
}

/// How sure the row's readings by `instrument` say they are; `None` where none of them does.
fn own_words(
    rubric: &Rubric,
    row: &Row,
    facts: &Facts,
    instrument: &Instrument,
    sheet: Unit,
) -> Option<String> {
    let readings = row.slots().filter_map(|slot| facts.readings.get(slot));
    // Most rows have none, and the slots take a while.
    if readings.flatten().all(|reading| reading.stated.is_none()) {
        return None;
    }
    let slots = rubric.slots();
    let own = slots
        .iter()
        .filter(|slot| row.slots().any(|id| id == slot.id));
    let stated = StatedReadings::of(rubric, facts, own, &instrument.id);
    stated.words(sheet.or_usual(instrument.dimension()))
}

/// The instruments that measure what the row asks for, the usual one first: those of the
/// marking, of its rubric, and what the ledger has beside them. A photo gauge is offered only
/// where it is chosen: its readings come from a photo, not by hand.
pub fn instrument_tiles(
    rubric: &Rubric,
    row: &Row,
    facts: &Facts,
    ledger: &Ledger,
    sheet: Unit,
) -> Vec<InstrumentTile> {
    let usual = row.instrument.as_deref();
    let is_here = |id: &str| rubric.instrument(id).is_some() || facts.instruments.contains_key(id);
    let of_rubric = rubric.instruments.iter().map(|one| one.id.as_str());
    let beside = facts.instruments.keys().map(String::as_str);
    let beside = beside.filter(|id| rubric.instrument(id).is_none());
    let here = of_rubric.chain(beside);
    let here = here.filter_map(|id| Some((instrument(rubric, facts, id)?, None)));
    let others = ledger
        .instruments()
        .filter(|own| !own.retired && !is_here(&own.id))
        .filter_map(|own| Some((own.fact.read(&own.id).ok()?, Some(own.fact.clone()))));
    let mut all: Vec<(Instrument, Option<InstrumentFact>)> = here.chain(others).collect();
    all.retain(|(one, _)| Some(one.dimension()) == dimension(row));
    let chosen = chosen_instrument(row, facts);
    let chosen = chosen.as_deref().or(usual);
    all.retain(|(one, _)| !is_photo_gauge(&one.id) || chosen == Some(one.id.as_str()));
    all.sort_by_key(|(one, _)| usual != Some(one.id.as_str()));
    let tile = |(one, own): (Instrument, Option<InstrumentFact>)| {
        let is_usual = usual == Some(one.id.as_str());
        let off = off_words(one.uncertainty, sheet);
        InstrumentTile {
            about: if is_usual {
                format!("the usual one here, {off}")
            } else {
                off
            },
            sets: (!is_usual).then(|| one.id.clone()),
            id: one.id,
            name: one.name,
            own,
        }
    };
    all.into_iter().map(tile).collect()
}
