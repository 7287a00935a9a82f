//! Many records at once, as they are.

use std::collections::BTreeSet;

use super::Change;
use crate::records::{
    Device, ExaminerId, Kind, Ledger, Marking, Piece, Record, RecordKey, Sitting, digests_in,
};

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
        need(ledger, record, &mut needed);
    }
    let keys = of_device.iter().map(Record::key);
    let (stays, goes) = keys.partition(|key| needed.contains(key));
    Removal { goes, stays }
}

/// Adds what `record` names, and what that names in turn.
fn need(ledger: &Ledger, record: &Record, needed: &mut BTreeSet<RecordKey>) {
    // No recursion: amendments may name one another in a long chain.
    let mut open = names(record);
    while let Some(key) = open.pop() {
        if needed.contains(&key) {
            continue;
        }
        if let Some(named) = ledger.get(&key) {
            open.extend(names(&named));
        }
        needed.insert(key);
    }
}

fn names(record: &Record) -> Vec<RecordKey> {
    match record {
        Record::Piece(piece) => of_piece(piece),
        Record::Marking(marking) => of_marking(marking),
        Record::Sitting(sitting) => of_sitting(sitting),
        Record::Rubric(rubric) => in_text(&rubric.text),
        Record::RubricDraft(draft) => in_text(&draft.text),
        Record::Learner(_) | Record::Examiner(_) | Record::Instrument(_) | Record::Picture(_) => {
            Vec::new()
        }
    }
}

/// What may be pictures; other digests name nothing that is kept.
fn in_text(text: &str) -> Vec<RecordKey> {
    digests_in(text).map(picture).collect()
}

fn picture(digest: &str) -> RecordKey {
    RecordKey::new(Kind::Picture, digest)
}

fn of_sitting(sitting: &Sitting) -> Vec<RecordKey> {
    let released = sitting.released.as_ref();
    let held_back = released.and_then(|release| release.held_back);
    let by = [
        released.map(|release| release.by),
        held_back.map(|held| held.by),
    ];
    by.into_iter().flatten().map(examiner).collect()
}

fn examiner(id: ExaminerId) -> RecordKey {
    RecordKey::new(Kind::Examiner, id)
}

fn of_piece(piece: &Piece) -> Vec<RecordKey> {
    let learner = piece.learner.map(|id| RecordKey::new(Kind::Learner, id));
    let always = [
        RecordKey::new(Kind::Sitting, piece.sitting),
        RecordKey::new(Kind::Rubric, &piece.rubric),
    ];
    let told = piece.feedback.map(|feedback| examiner(feedback.by));
    always.into_iter().chain(learner).chain(told).collect()
}

fn of_marking(marking: &Marking) -> Vec<RecordKey> {
    let replaced = marking.replaces.as_ref();
    let replaced = replaced.map(|replaces| RecordKey::new(Kind::Marking, replaces.marking));
    let always = [
        RecordKey::new(Kind::Piece, marking.piece),
        RecordKey::new(Kind::Rubric, &marking.rubric),
        examiner(marking.examiner),
    ];
    let agreement = marking.agreement.iter();
    let sources = agreement.flat_map(|agreement| &agreement.from);
    let sources = sources.map(|from| RecordKey::new(Kind::Marking, from.marking));
    always
        .into_iter()
        .chain(replaced)
        .chain(sources)
        .chain(marking.pictures().map(picture))
        .collect()
}
