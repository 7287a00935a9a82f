//! What is said of readings that are used all the same: the instruments that they name,
//! and repeats that disagree.

use crate::quantity::{Exact, Quantity, Reading, Unit};
use crate::rubric::{Instrument, Rubric, Slot};

use super::entry::Sheet;
use super::facts::{Facts, ReadingFact};
use super::instruments::{disagreement, instrument, taken_with};
use super::result::Problem;
use super::taken::{Slots, read_fact};

/// Readings that name an instrument which cannot have taken them: each reading once, with
/// what to do. Marks are given from its value, how sure they are is not known.
pub(super) fn wrong_instruments(rubric: &Rubric, facts: &Facts, slots: &Slots<'_>) -> Vec<Problem> {
    let mut problems = Vec::new();
    for slot in slots.all() {
        let mut told: Vec<&str> = Vec::new();
        for reading in written(facts, slot) {
            let Some(id) = reading.instrument.as_deref().or(slot.instrument) else {
                continue;
            };
            if told.contains(&id) {
                continue;
            }
            told.push(id);
            let wrong = wrong_instrument(rubric, facts, slot, id);
            problems.extend(wrong.map(|message| Problem {
                id: slot.id.clone(),
                message,
            }));
        }
    }
    problems
}

fn wrong_instrument(rubric: &Rubric, facts: &Facts, slot: &Slot<'_>, id: &str) -> Option<String> {
    let own = facts.instruments.get(id);
    if let Some(Err(why)) = own.map(|own| own.read(id)) {
        let name = own.map_or(id, |own| own.name.as_str());
        return Some(format!(
            "the figures of {name} cannot be used: {why}; then choose it again, or another"
        ));
    }
    let remedy = "choose the instrument that the reading was taken with";
    match instrument(rubric, facts, id) {
        None => Some(format!("there is no instrument `{id}` here; {remedy}")),
        Some(found) if found.dimension() != slot.dimension => Some(format!(
            "{} measures {}, and this is {}; {remedy}",
            found.name,
            found.dimension().word(),
            slot.dimension.word()
        )),
        Some(_) => None,
    }
}

/// Repeats that differ by more than their instrument explains; printed in `sheet`.
pub(super) fn disagreeing(sheet: &Sheet<'_>) -> Vec<Problem> {
    // The members of a series may differ, and so may readings at several places.
    let repeated = |slot: &&Slot<'_>| slot.members == 1 && !slot.several_places;
    let single = sheet.slots.all().filter(repeated);
    let found = single.filter_map(|slot| {
        Some(Problem {
            id: slot.id.clone(),
            message: disagree(sheet.rubric, sheet.facts, slot, sheet.unit)?,
        })
    });
    found.collect()
}

fn disagree(rubric: &Rubric, facts: &Facts, slot: &Slot<'_>, sheet: Unit) -> Option<String> {
    let cold = written(facts, slot).filter(|reading| reading.counts());
    let cold: Vec<&ReadingFact> = cold.collect();
    // One reading agrees with itself; most slots have no more.
    if cold.len() < 2 {
        return None;
    }
    let values = cold
        .iter()
        .map(|reading| match read_fact(slot, reading, rubric.unit) {
            Ok(Reading::Value(quantity)) => Some(quantity.base),
            _ => None,
        });
    let values: Vec<Exact> = values.collect::<Option<_>>()?;
    let with = cold
        .iter()
        .map(|reading| taken_with(rubric, facts, slot, reading));
    let with: Vec<Instrument> = with.collect::<Option<_>>()?;
    // Of several instruments the one that scatters most excuses most.
    let scatter = |one: &Instrument| one.repeatability.map(|repeats| (repeats, one.name.clone()));
    let scatters: Vec<(Quantity, String)> = with.iter().map(scatter).collect::<Option<_>>()?;
    let (repeatability, name) = scatters.into_iter().max_by_key(|(most, _)| most.base)?;
    let found = disagreement(&values, repeatability)?;
    let unit = sheet.or_usual(slot.dimension);
    let these = match values.len() {
        2 => "these two".to_owned(),
        count => format!("these {count}"),
    };
    Some(format!(
        "{these} differ by {}, more than the {} that repeats with {} explain: measure again",
        found.range.print_limit(unit),
        found.critical.print_limit(unit),
        name.to_lowercase()
    ))
}

fn written<'f>(facts: &'f Facts, slot: &Slot<'_>) -> impl Iterator<Item = &'f ReadingFact> {
    let readings = facts.readings.get(&slot.id).map_or(&[][..], Vec::as_slice);
    readings.iter().filter(|reading| reading.is_written())
}
