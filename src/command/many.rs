//! Many records at once, as they are.

use std::collections::BTreeSet;

use super::Change;
use crate::records::{Device, Ledger, Record, RecordKey};

/// What [`Command::RemoveMadeBy`](super::Command::RemoveMadeBy) does to a ledger.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Removal {
    /// Records that go.
    pub goes: Vec<RecordKey>,
    /// Records of the device that stay, because a record of another device names
    /// them: the piece that somebody else marked, its sitting, learner and rubric.
    pub stays: Vec<RecordKey>,
}

/// Takes in what is not here; a record that is here was perhaps written since.
pub(super) fn include(ledger: &Ledger, records: Vec<Record>) -> Change {
    Change {
        puts: records
            .into_iter()
            .filter(|record| ledger.get(&record.key()).is_none())
            .collect(),
        ..Change::default()
    }
}

/// What goes and what stays where all that `device` made is to go.
///
/// A record of another device never goes, and never loses what it names. Who made
/// a record is told by its id ([`Record::was_made_by`]): an edit by somebody else
/// does not save it.
pub fn removal(ledger: &Ledger, device: &Device) -> Removal {
    let (of_device, others): (Vec<Record>, Vec<Record>) = ledger
        .records()
        .partition(|record| record.was_made_by(device));
    let mut needed = BTreeSet::new();
    for record in &others {
        ledger.add_named(record.names(), &mut needed);
    }
    let keys = of_device.iter().map(Record::key);
    let (stays, goes) = keys.partition(|key| needed.contains(key));
    Removal { goes, stays }
}
