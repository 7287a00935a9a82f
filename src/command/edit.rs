use std::collections::{BTreeMap, BTreeSet};

use super::{Edit, Entered};
use crate::marking::{Facts, InstrumentFact, ReadingFact};
use crate::records::Marking;

/// Makes one edit in a marking that is known to be a draft: of the ledger, or one that
/// is kept nowhere, as a rubric is tried out on.
pub fn edit(marking: &mut Marking, edit: Edit) {
    let facts = &mut marking.facts;
    match edit {
        Edit::SetReadings { entry, readings } => {
            let readings = (!readings.is_empty()).then_some(readings);
            set(&mut facts.readings, entry, readings);
        }
        Edit::SetInstrument {
            entries,
            instrument,
            own,
        } => set_instrument(facts, entries, instrument, own),
        Edit::SetLevel { entry, level } => set(&mut facts.levels, entry, level),
        Edit::SetTally { entry, tally } => set(&mut facts.tallies, entry, tally),
        Edit::SetFaults { entry, faults } => set(&mut facts.faults, entry, faults),
        Edit::SetFaultsOnMany { faults } => {
            for (entry, faults) in faults {
                set(&mut marking.facts.faults, entry, faults);
            }
        }
        Edit::SetState { entry, state } => set(&mut facts.states, entry, state),
        Edit::SetComment { entry, comment } => {
            let comment = comment.filter(|text| !text.trim().is_empty());
            match entry {
                Some(entry) => set(&mut marking.comments, entry, comment),
                None => marking.overall = comment,
            }
        }
        Edit::SetUnit { unit } => marking.unit = unit,
        Edit::SetPauses { pauses } => facts.pauses = pauses,
        Edit::SetExtraTime { extra_time } => facts.extra_time = extra_time,
        Edit::SetLifts { lifts } => facts.lifts = lifts,
        Edit::Settle { entry, settled } => {
            if let Some(agreement) = &mut marking.agreement {
                set(&mut agreement.settled, entry, settled);
            }
        }
        Edit::TakeBack { before, after } => take_back(marking, *before, *after),
    }
}

/// An entry without readings keeps the choice in an empty one, until something is typed.
fn set_instrument(
    facts: &mut Facts,
    entries: Vec<String>,
    instrument: Option<String>,
    own: Option<InstrumentFact>,
) {
    for entry in entries {
        let mut readings = facts.readings.remove(&entry).unwrap_or_default();
        if readings.is_empty() {
            readings.push(ReadingFact::of(""));
        }
        for reading in &mut readings {
            reading.instrument.clone_from(&instrument);
        }
        let says = |reading: &ReadingFact| !reading.text.is_empty() || reading.instrument.is_some();
        if readings.iter().any(says) {
            facts.readings.insert(entry, readings);
        }
    }
    if let (Some(id), Some(own)) = (instrument, own) {
        facts.instruments.entry(id).or_insert(own);
    }
}

/// Three-way: another tab may have written since, and its entries stay.
fn take_back(marking: &mut Marking, before: Entered, after: Entered) {
    let facts = &mut marking.facts;
    let (old, new) = (before.facts, after.facts);
    restore_entries(&mut facts.readings, old.readings, &new.readings);
    restore_entries(&mut facts.levels, old.levels, &new.levels);
    restore_entries(&mut facts.tallies, old.tallies, &new.tallies);
    restore_entries(&mut facts.faults, old.faults, &new.faults);
    restore_entries(&mut facts.states, old.states, &new.states);
    restore_entries(&mut facts.instruments, old.instruments, &new.instruments);
    restore(&mut facts.pauses, old.pauses, &new.pauses);
    restore(&mut facts.extra_time, old.extra_time, &new.extra_time);
    restore(&mut facts.lifts, old.lifts, &new.lifts);
    restore_entries(&mut marking.comments, before.comments, &after.comments);
    restore(&mut marking.overall, before.overall, &after.overall);
    restore(&mut marking.unit, before.unit, &after.unit);
}

fn restore_entries<T: PartialEq>(
    now: &mut BTreeMap<String, T>,
    mut before: BTreeMap<String, T>,
    after: &BTreeMap<String, T>,
) {
    let places: BTreeSet<String> = before.keys().chain(after.keys()).cloned().collect();
    for place in places {
        if now.get(&place) == after.get(&place) {
            let old = before.remove(&place);
            set(now, place, old);
        }
    }
}

fn restore<T: PartialEq>(now: &mut T, before: T, after: &T) {
    if now == after {
        *now = before;
    }
}

fn set<T>(map: &mut BTreeMap<String, T>, entry: String, value: Option<T>) {
    match value {
        Some(value) => {
            map.insert(entry, value);
        }
        None => {
            map.remove(&entry);
        }
    }
}
