use std::collections::BTreeMap;

use super::Edit;
use crate::records::Marking;

/// Makes one edit in a marking that is known to be a draft.
pub(super) fn edit(marking: &mut Marking, edit: Edit) {
    let facts = &mut marking.facts;
    match edit {
        Edit::SetReadings { entry, readings } => {
            let readings = (!readings.is_empty()).then_some(readings);
            set(&mut facts.readings, entry, readings);
        }
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
        Edit::ReplaceFacts {
            facts,
            comments,
            overall,
        } => {
            marking.facts = facts;
            marking.comments = comments;
            marking.overall = overall;
        }
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
