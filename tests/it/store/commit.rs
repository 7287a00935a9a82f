use evenshod::command::{Command, apply};
use evenshod::records::{Change, Kind, Ledger, RecordKey, WireError};
use evenshod::store::{Batch, MemoryStore, Store, StoreError};

use super::now;
use crate::records::sample::{after, level, named, seal, stamp, start, with_draft};

fn holding(ledger: &Ledger) -> MemoryStore {
    let texts = ledger
        .records()
        .map(|record| (record.key().to_string(), record.write().unwrap()));
    MemoryStore::holding(texts)
}

fn batch(ledger: &Ledger, command: Command, seconds: u64) -> Batch {
    Batch::of(ledger, apply(ledger, command, &stamp(seconds)).unwrap())
}

#[test]
fn what_is_committed_is_loaded() {
    let store = MemoryStore::default();
    let empty = Ledger::default();
    let first = batch(&empty, start(named("Ada Smith")), 0);
    now(store.commit(&first)).unwrap();
    let loaded = now(store.load()).unwrap();
    assert_eq!(loaded.ledger, with_draft().0);
    assert!(loaded.unreadable.is_empty());

    let marking = first.change.made.marking.unwrap();
    let delete = batch(&loaded.ledger, Command::DeleteDraft { marking }, 1);
    now(store.commit(&delete)).unwrap();
    assert_eq!(now(store.load()).unwrap().ledger.pieces().count(), 0);
}

#[test]
fn a_change_made_from_an_older_state_is_refused_as_a_whole() {
    let (ledger, made) = with_draft();
    let (marking, store) = (made.marking.unwrap(), holding(&ledger));
    now(store.commit(&batch(&ledger, level(marking, "a", "good"), 1))).unwrap();
    let before = store.texts();
    let stale = [
        batch(&ledger, level(marking, "b", "fair"), 2),
        batch(&ledger, Command::DeleteDraft { marking }, 2),
    ];
    for batch in stale {
        let refused = now(store.commit(&batch)).unwrap_err();
        assert!(matches!(refused, StoreError::Changed { .. }), "{refused}");
        assert_eq!(store.texts(), before);
    }
}

#[test]
fn a_record_that_is_gone_or_came_meanwhile_is_a_change_too() {
    let (ledger, made) = with_draft();
    let marking = made.marking.unwrap();
    let edit = batch(&ledger, level(marking, "a", "good"), 1);
    let gone = after(&ledger, Command::DeleteDraft { marking }, &stamp(1)).0;
    let refused = now(holding(&gone).commit(&edit)).unwrap_err();
    assert!(matches!(refused, StoreError::Changed { .. }));

    let first = batch(&Ledger::default(), start(named("Ada Smith")), 0);
    let refused = now(holding(&ledger).commit(&first)).unwrap_err();
    assert!(matches!(refused, StoreError::Changed { .. }));
}

#[test]
fn a_seal_is_refused_where_its_piece_changed_meanwhile() {
    let (ledger, made) = with_draft();
    let piece = made.piece.unwrap();
    let sealing = batch(&ledger, seal(made.marking.unwrap()), 1);
    let ended = Some(evenshod::records::Ended::Withdrawn);
    let ending = batch(&ledger, Command::SetEnded { piece, ended }, 1);
    for (first, second) in [(&sealing, &ending), (&ending, &sealing)] {
        let store = holding(&ledger);
        now(store.commit(first)).unwrap();
        let refused = now(store.commit(second)).unwrap_err();
        assert!(matches!(refused, StoreError::Changed { .. }));
    }
}

#[test]
fn unreadable_records_are_listed_and_never_overwritten() {
    let (ledger, made) = with_draft();
    let marking = made.marking.unwrap();
    let key = format!("marking/{marking}");
    let mut texts = holding(&ledger).texts();
    let schema = format!("\"schema\":{}", Kind::Marking.schema());
    let next = format!("\"schema\":{}", Kind::Marking.schema() + 1);
    let newer = texts[&key].replace(&schema, &next);
    texts.insert(key.clone(), newer);
    texts.insert("learner/x".to_owned(), "{".to_owned());
    let store = MemoryStore::holding(texts.clone());

    let loaded = now(store.load()).unwrap();
    assert_eq!(loaded.ledger.markings().count(), 0);
    assert_eq!(loaded.ledger.pieces().count(), 1);
    let unreadable: Vec<_> = loaded.unreadable.iter().map(|found| &found.key).collect();
    assert_eq!(unreadable, ["learner/x", &key]);
    assert!(matches!(loaded.unreadable[1].why, WireError::Newer { .. }));

    let overwrite = batch(&ledger, level(marking, "a", "good"), 1);
    let refused = now(store.commit(&overwrite)).unwrap_err();
    assert!(
        matches!(refused, StoreError::Unreadable { .. }),
        "{refused}"
    );
    let key: RecordKey = key.parse().unwrap();
    let delete = Batch {
        base: [(key.clone(), None)].into(),
        change: Change {
            deletes: vec![key],
            ..Change::default()
        },
    };
    now(store.commit(&delete)).unwrap_err();
    assert_eq!(store.texts(), texts);
}

#[test]
fn browser_exceptions_become_what_a_person_can_do() {
    let full = StoreError::from_name("QuotaExceededError", "");
    assert_eq!(full, StoreError::Full);
    assert!(full.to_string().contains("free space"));
    let blocked = StoreError::on_open("SecurityError", "denied");
    assert!(blocked.to_string().contains("SecurityError: denied"));
    assert!(matches!(blocked, StoreError::Blocked { .. }));
    assert_eq!(
        StoreError::on_open("VersionError", ""),
        StoreError::NewerTab
    );
    assert_eq!(
        StoreError::from_name("InvalidStateError", ""),
        StoreError::Closed
    );
    let other = StoreError::from_name("UnknownError", "disk");
    assert!(other.to_string().contains("UnknownError: disk"));
}
