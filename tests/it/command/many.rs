use evenshod::command::{Command, MarkAgain, Removal, apply, removal};
use evenshod::records::{
    Device, Kind, LearnerId, Ledger, MarkingId, Record, RecordKey, Role, Stamp, Unit, sha256_hex,
};

use crate::records::sample::{
    NOW_MS, after, begin_study, caliper, comment, device, jpeg, keep, level, milestone, named, now,
    seal, set_instrument, stamp, stamp_of, start, with_draft,
};

/// [`with_draft`] made on another tablet.
fn elsewhere() -> (Ledger, Device) {
    let (ledger, made) = after(
        &Ledger::default(),
        start(named("Bea Long")),
        &stamp_of(2, 0),
    );
    let note = milestone(made.learner.unwrap(), "Began at the new yard");
    let ledger = after(&ledger, note, &stamp_of(2, 2)).0;
    let draft = Command::DraftRubric {
        text: "title = \"Half".to_owned(),
    };
    let ledger = after(&ledger, draft, &stamp_of(2, 1)).0;
    let ledger = after(&ledger, begin_study(), &stamp_of(2, 1)).0;
    (after(&ledger, keep(&jpeg(1)), &stamp_of(2, 1)).0, device(2))
}

fn include(ledger: &Ledger, other: &Ledger) -> Ledger {
    let records = other.records().collect();
    after(ledger, Command::Include { records }, &stamp(5)).0
}

fn texts(ledger: &Ledger) -> Vec<String> {
    ledger
        .records()
        .map(|record| record.write().unwrap())
        .collect()
}

fn remove(ledger: &Ledger, device: Device) -> Ledger {
    after(ledger, Command::RemoveMadeBy { device }, &stamp(9)).0
}

#[test]
fn who_made_an_id_is_told_by_the_id_alone() {
    let (one, other) = (device(1), device(2));
    for (time, counter) in [(0, 0), (NOW_MS, 0), (NOW_MS, 7), (NOW_MS, 4095)] {
        let stamp = Stamp {
            time,
            counter,
            device: one.clone(),
        };
        let id = LearnerId::made_by(&stamp, 3);
        assert!(id.was_made_by(&one, 3));
        assert!(!id.was_made_by(&one, 4) && !id.was_made_by(&other, 3));
    }
    let late = Stamp {
        time: NOW_MS,
        counter: 4096,
        device: one.clone(),
    };
    assert!(!LearnerId::made_by(&late, 0).was_made_by(&one, 0));
    assert!(!MarkingId::LEAST.was_made_by(&one, 4) && !MarkingId::MOST.was_made_by(&one, 4));
}

#[test]
fn every_record_that_commands_make_knows_its_device_after_an_edit_by_another() {
    let (ledger, other) = elsewhere();
    let made: Vec<Record> = ledger.records().collect();
    let all = Kind::ALL
        .into_iter()
        .filter(|kind| ![Kind::Instrument, Kind::TableHead].contains(kind));
    assert_eq!(made.len(), all.count(), "one of each kind");
    for record in &made {
        assert!(record.was_made_by(&other), "{}", record.key());
        assert!(!record.was_made_by(&device(1)), "{}", record.key());
    }
    let draft = ledger.drafts().next().unwrap().id;
    let (ledger, _) = after(&ledger, level(draft, "finish", "good"), &stamp(1));
    let record = ledger.get(&RecordKey::new(Kind::Marking, draft)).unwrap();
    assert_eq!(record.stamp().device, device(1));
    assert!(record.was_made_by(&other));
}

#[test]
fn an_instrument_is_nobodys_and_stays() {
    let (ledger, other) = elsewhere();
    let command = set_instrument(&ledger, "caliper", caliper());
    let ledger = after(&ledger, command, &stamp_of(2, 5)).0;
    let left = remove(&ledger, other);
    let keys: Vec<String> = left.records().map(|one| one.key().to_string()).collect();
    assert_eq!(keys, ["instrument/caliper"]);
}

#[test]
fn what_is_taken_in_changes_nothing_that_is_here() {
    let (other, _) = elsewhere();
    let ledger = include(&Ledger::default(), &other);
    assert_eq!(texts(&ledger), texts(&other));
    let draft = ledger.drafts().next().unwrap().id;
    let (edited, _) = after(&ledger, comment(draft, None, "Mine."), &stamp(6));
    assert_eq!(include(&edited, &other), edited);
    let records = other.records().collect();
    let change = apply(&edited, Command::Include { records }, &stamp(7)).unwrap();
    assert!(change.is_empty());
}

#[test]
fn all_of_a_device_goes_sealed_or_edited_and_all_else_stays() {
    let (own, made) = with_draft();
    let (own, _) = after(&own, seal(made.marking.unwrap()), &stamp(1));
    let (other, device) = elsewhere();
    let ledger = include(&own, &other);
    let theirs = ledger.drafts().next().unwrap().id;
    let (ledger, _) = after(&ledger, level(theirs, "finish", "good"), &stamp(6));
    let (ledger, _) = after(&ledger, seal(theirs), &stamp(7));
    assert_eq!(removal(&ledger, &device).stays, []);
    assert_eq!(texts(&remove(&ledger, device)), texts(&own));
}

#[test]
fn what_somebody_else_marked_stays_with_all_that_it_names() {
    let (other, device) = elsewhere();
    let piece = other.pieces().next().unwrap().clone();
    let first = other.markings_of(piece.id).next().unwrap().id;
    let second = MarkAgain {
        piece: piece.id,
        examiner: "Jo Reed".to_owned(),
        rubric: None,
        unit: Unit::Millimetre,
        role: Role::Second,
        at: now(),
    };
    let (ledger, made) = after(&other, Command::MarkAgain(Box::new(second)), &stamp(1));
    let (ledger, _) = after(&ledger, seal(made.marking.unwrap()), &stamp(2));
    let Removal { goes, stays } = removal(&ledger, &device);
    let examiner = other.examiners().next().unwrap().id;
    let draft = other.rubric_drafts().next().unwrap().id;
    let note = other.milestones().next().unwrap().id;
    let study = other.studies().next().unwrap().id;
    assert_eq!(
        goes,
        [
            RecordKey::new(Kind::Examiner, examiner),
            RecordKey::new(Kind::Milestone, note),
            RecordKey::new(Kind::Study, study),
            RecordKey::new(Kind::Picture, sha256_hex(&jpeg(1))),
            RecordKey::new(Kind::RubricDraft, draft),
            RecordKey::new(Kind::Marking, first)
        ]
    );
    assert_eq!(
        stays.iter().map(|key| key.kind).collect::<Vec<_>>(),
        [Kind::Learner, Kind::Sitting, Kind::Rubric, Kind::Piece]
    );
    let left = remove(&ledger, device);
    let marking = left.marking(made.marking.unwrap()).unwrap();
    let parts = left.seal_parts(marking).unwrap();
    assert!(evenshod::records::check_seal(parts).unwrap().intact);
}

#[test]
fn nothing_of_a_device_is_nothing_to_do() {
    let (ledger, _) = with_draft();
    let command = Command::RemoveMadeBy { device: device(9) };
    assert!(apply(&ledger, command, &stamp(1)).unwrap().is_empty());
}
