//! Instrument studies: beginning one, what is typed of it, and setting it aside.

use std::collections::BTreeSet;

use super::apply::{missing, put};
use super::learner::{spaced, tidy_text, write};
use super::{Change, CommandError};
use crate::records::{
    Kind, Ledger, Made, Place, Stamp, Study, StudyFacts, StudyFault, StudyId, StudyPart,
    StudyPerson,
};

/// Something in a list of a study, told by its id.
trait Listed: Clone {
    fn id(&self) -> u32;
    fn set_id(&mut self, id: u32);
    /// Takes over what differs between `before` and `after`.
    fn write(&mut self, before: &Self, after: &Self);
}

impl Listed for StudyPart {
    fn id(&self) -> u32 {
        self.id
    }

    fn set_id(&mut self, id: u32) {
        self.id = id;
    }

    fn write(&mut self, before: &Self, after: &Self) {
        write(&mut self.name, &before.name, after.name.clone());
        write(
            &mut self.reference,
            &before.reference,
            after.reference.clone(),
        );
        write(
            &mut self.uncertainty,
            &before.uncertainty,
            after.uncertainty.clone(),
        );
    }
}

impl Listed for StudyPerson {
    fn id(&self) -> u32 {
        self.id
    }

    fn set_id(&mut self, id: u32) {
        self.id = id;
    }

    fn write(&mut self, before: &Self, after: &Self) {
        write(&mut self.name, &before.name, after.name.clone());
    }
}

/// Begins a study. Parts and people without an id are numbered in their order.
pub(super) fn begin(
    ledger: &Ledger,
    facts: StudyFacts,
    stamp: &Stamp,
) -> Result<Change, CommandError> {
    let id = StudyId::made_by(stamp, 10);
    let mut change = Change::default();
    if ledger.study(id).is_none() {
        let mut facts = tidy(facts);
        number(&mut facts.parts);
        number(&mut facts.people);
        facts.check().map_err(CommandError::Study)?;
        change = put(Study {
            id,
            stamp: stamp.clone(),
            facts,
            set_aside: false,
            erased: None,
        });
    }
    change.made = Made {
        study: Some(id),
        ..Made::default()
    };
    Ok(change)
}

/// Three-way: what does not differ between `before` and `after` stays as it is now. A part or
/// a person without an id is new and gets one from the stamp, so that two tabs that add one
/// at once never mean the same by it. One that is taken out takes its readings along.
///
/// *Errors:* a reading of what another tab has taken out meanwhile is refused.
pub(super) fn set(
    ledger: &Ledger,
    id: StudyId,
    before: &StudyFacts,
    after: StudyFacts,
    stamp: &Stamp,
) -> Result<Change, CommandError> {
    let old = ledger.study(id).ok_or_else(|| missing(Kind::Study, id))?;
    let after = tidy(after);
    let mut new = old.clone();
    let now = &mut new.facts;
    write(&mut now.name, &before.name, after.name.clone());
    write(
        &mut now.instrument,
        &before.instrument,
        after.instrument.clone(),
    );
    write(&mut now.day, &before.day, after.day);
    write(&mut now.unit, &before.unit, after.unit);
    write(&mut now.trials, &before.trials, after.trials);
    write(&mut now.note, &before.note, after.note.clone());
    // No two of one command may come by one number.
    write_list(&mut now.parts, &before.parts, &after.parts, stamp, 20);
    write_list(&mut now.people, &before.people, &after.people, stamp, 60);
    write_readings(now, before, &after).map_err(CommandError::Study)?;
    now.drop_strays();
    now.check().map_err(CommandError::Study)?;
    if new == *old {
        return Ok(Change::default());
    }
    new.stamp = stamp.after(&old.stamp);
    Ok(put(new))
}

/// Sets a study aside, or brings it back.
pub(super) fn set_aside(
    ledger: &Ledger,
    id: StudyId,
    set_aside: bool,
    stamp: &Stamp,
) -> Result<Change, CommandError> {
    let old = ledger.study(id).ok_or_else(|| missing(Kind::Study, id))?;
    if old.set_aside == set_aside {
        return Ok(Change::default());
    }
    Ok(put(Study {
        set_aside,
        stamp: stamp.after(&old.stamp),
        ..old.clone()
    }))
}

/// Without needless spaces and empty texts.
fn tidy(mut facts: StudyFacts) -> StudyFacts {
    facts.name = spaced(&facts.name);
    facts.instrument = spaced(&facts.instrument);
    facts.note = facts.note.trim().to_owned();
    for part in &mut facts.parts {
        part.name = spaced(&part.name);
        part.reference = tidy_text(part.reference.take());
        part.uncertainty = tidy_text(part.uncertainty.take());
    }
    for person in &mut facts.people {
        person.name = spaced(&person.name);
    }
    let readings = std::mem::take(&mut facts.readings);
    let readings = readings
        .into_iter()
        .map(|(place, text)| (place, spaced(&text)));
    facts.readings = readings.filter(|(_, text)| !text.is_empty()).collect();
    facts
}

fn number<T: Listed>(list: &mut [T]) {
    for at in 0..list.len() {
        let free = (1..).find(|id| list.iter().all(|one| one.id() != *id));
        if let Some(one) = list.get_mut(at).filter(|one| one.id() == 0) {
            one.set_id(free.unwrap_or_default());
        }
    }
}

fn write_list<T: Listed>(now: &mut Vec<T>, before: &[T], after: &[T], stamp: &Stamp, first: u8) {
    let here = |list: &[T], id: u32| list.iter().position(|one| one.id() == id);
    now.retain(|own| here(before, own.id()).is_none() || here(after, own.id()).is_some());
    for (ordinal, (at, wanted)) in (first..).zip(after.iter().enumerate()) {
        let mut wanted = wanted.clone();
        if wanted.id() == 0 {
            wanted.set_id(stamp.number(ordinal));
            if here(now, wanted.id()).is_none() {
                now.push(wanted);
            }
            continue;
        }
        let was = before.iter().find(|one| one.id() == wanted.id());
        match (now.iter_mut().find(|one| one.id() == wanted.id()), was) {
            (Some(own), Some(was)) => own.write(was, &wanted),
            // Taken back after it was taken out.
            (None, None) => now.insert(at.min(now.len()), wanted),
            // Here already; or taken out meanwhile, which stays so.
            (Some(_), None) | (None, Some(_)) => {}
        }
    }
}

fn write_readings(
    now: &mut StudyFacts,
    before: &StudyFacts,
    after: &StudyFacts,
) -> Result<(), StudyFault> {
    let places = before.readings.keys().chain(after.readings.keys());
    let places: BTreeSet<Place> = places.copied().collect();
    for place in places {
        let wanted = after.readings.get(&place);
        if before.readings.get(&place) == wanted {
            continue;
        }
        match wanted {
            Some(_) if !now.has(place) => return Err(StudyFault::Place(place)),
            Some(text) => now.readings.insert(place, text.clone()),
            None => now.readings.remove(&place),
        };
    }
    Ok(())
}
