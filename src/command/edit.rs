use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use super::apply::tidy;
use super::heat_log::{give_back_log, take_back_tap, take_over_log, tap};
use super::impression::{Look, keep_locked, refuse_state, set_impression, set_level};
use super::{CommandError, Edit, Entered};
use crate::marking::heat_log::{Afterwards, HeatLog};
use crate::marking::{Facts, InstrumentFact, OutlineFact, ReadingFact};
use crate::records::Marking;
use crate::rubric::Rubric;

/// Makes one edit in a marking that is known to be a draft: of the ledger, or one that
/// is kept nowhere, as a rubric is tried out on. `rubric` gives the rubric that it is
/// marked by, where that asks for a first impression; it is asked only where that matters.
///
/// *Errors:* [`CommandError::ImpressionLocked`], [`CommandError::ImpressionLate`],
/// [`CommandError::InstrumentRefused`], [`CommandError::TapRefused`],
/// [`CommandError::TapNotLast`], [`CommandError::LogNotEmpty`]; then nothing has changed.
pub fn edit(
    marking: &mut Marking,
    edit: Edit,
    rubric: &dyn Fn() -> Option<Arc<Rubric>>,
) -> Result<(), CommandError> {
    let look = Look(rubric);
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
        Edit::TakeReadings {
            readings,
            instruments,
            outline,
        } => take_readings(facts, readings, instruments, outline)?,
        Edit::SetLevel { entry, level } => set_level(facts, entry, level, look)?,
        Edit::SetTally { entry, tally } => set(&mut facts.tallies, entry, tally),
        Edit::SetFaults { entry, faults } => set(&mut facts.faults, entry, faults),
        Edit::SetFaultsOnMany { faults } => {
            for (entry, faults) in faults {
                set(&mut marking.facts.faults, entry, faults);
            }
        }
        Edit::SetState { entry, state } => {
            if state.is_some() {
                refuse_state(facts, &entry, look)?;
            }
            set(&mut facts.states, entry, state);
        }
        Edit::SetComment { entry, comment } => {
            let comment = comment.filter(|text| !text.trim().is_empty());
            match entry {
                Some(entry) => set(&mut marking.comments, entry, comment),
                None => marking.overall = comment,
            }
        }
        Edit::AddPhoto { photo } => {
            if marking.pictures().all(|picture| picture != photo.picture) {
                marking.photos.push(photo);
            }
        }
        Edit::SetPhotoNote { picture, note } => {
            let mut photos = marking.photos.iter_mut();
            if let Some(photo) = photos.find(|photo| photo.picture == picture) {
                note.trim().clone_into(&mut photo.note);
            }
        }
        Edit::RemovePhoto { picture } => {
            marking.photos.retain(|photo| photo.picture != picture);
            facts.outlines.retain(|outline| outline.photo != picture);
        }
        Edit::SetTypist { name } => {
            marking.typist = name.and_then(|name| tidy(&name, "who types it in").ok());
        }
        Edit::SetUnit { unit } => marking.unit = unit,
        Edit::SetPauses { pauses } => facts.pauses = pauses,
        Edit::SetExtraTime { extra_time } => facts.extra_time = extra_time,
        Edit::SetLifts { lifts } => facts.lifts = lifts,
        Edit::Tap { tap: one } => tap(facts, one)?,
        Edit::TakeBackTap { index } => take_back_tap(facts, index)?,
        Edit::TakeOverLog { from, taps } => take_over_log(facts, from, taps)?,
        Edit::GiveBackLog => give_back_log(facts)?,
        Edit::SetHeatPlan { plan } => facts.heat_log.plan = plan,
        Edit::SetAfterwards { afterwards } => {
            let nothing = Afterwards::default();
            facts.heat_log.afterwards = afterwards.filter(|entered| *entered != nothing);
        }
        Edit::SetCut { cut } => facts.cut = cut.filter(|cut| !cut.text.trim().is_empty()),
        Edit::Settle { entry, settled } => {
            if let Some(agreement) = &mut marking.agreement {
                set(&mut agreement.settled, entry, settled);
            }
        }
        Edit::TakeBack { before, after } => {
            let stood = facts.clone();
            take_back(marking, *before, *after);
            keep_locked(&mut marking.facts, stood, look);
        }
        Edit::SetImpression { impression } => {
            if marking.agreement.is_none() {
                set_impression(facts, impression, look)?;
            }
        }
    }
    Ok(())
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
            if reading.instrument != instrument {
                reading.instrument.clone_from(&instrument);
                // The figures were those of what took it before.
                reading.stated = None;
            }
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

fn take_readings(
    facts: &mut Facts,
    readings: BTreeMap<String, Vec<ReadingFact>>,
    instruments: BTreeMap<String, InstrumentFact>,
    outline: Option<OutlineFact>,
) -> Result<(), CommandError> {
    for (id, fact) in &instruments {
        fact.read(id)
            .map_err(|fault| CommandError::InstrumentRefused {
                name: fact.name.clone(),
                fault,
            })?;
    }
    if let Some(outline) = &outline {
        outline.check().map_err(CommandError::OutlineRefused)?;
    }
    facts.readings.extend(readings);
    facts.instruments.extend(instruments);
    if let Some(outline) = outline {
        facts.outlines.retain(|own| own.shoe != outline.shoe);
        facts.outlines.push(outline);
    }
    Ok(())
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
    restore(&mut facts.impression, old.impression, &new.impression);
    restore(&mut facts.outlines, old.outlines, &new.outlines);
    restore(&mut facts.cut, old.cut, &new.cut);
    restore_log(&mut facts.heat_log, old.heat_log, &new.heat_log);
    restore_entries(&mut marking.comments, before.comments, &after.comments);
    restore(&mut marking.overall, before.overall, &after.overall);
    restore(&mut marking.photos, before.photos, &after.photos);
    restore(&mut marking.typist, before.typist, &after.typist);
    restore(&mut marking.unit, before.unit, &after.unit);
}

fn restore_log(now: &mut HeatLog, before: HeatLog, after: &HeatLog) {
    if now.taps == after.taps {
        restore(&mut now.taken_over, before.taken_over, &after.taken_over);
    }
    restore(&mut now.taps, before.taps, &after.taps);
    restore(&mut now.plan, before.plan, &after.plan);
    restore(&mut now.afterwards, before.afterwards, &after.afterwards);
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

pub(super) fn set<T>(map: &mut BTreeMap<String, T>, entry: String, value: Option<T>) {
    match value {
        Some(value) => {
            map.insert(entry, value);
        }
        None => {
            map.remove(&entry);
        }
    }
}
