use evenshod::command::{Command, Edit, apply};
use evenshod::records::{Ledger, RecordKey, sha256_hex};
use evenshod::store::{Batch, Desk, MemoryStore, Store, StoreError};

use super::now;
use crate::records::sample::{
    after, bundle, erase, jpeg, keep, photos, picture, seal, stamp, stamp_of, with_draft,
};

fn bytes_in(store: &MemoryStore, which: u8) -> Option<Vec<u8>> {
    let found = now(store.picture(&sha256_hex(&jpeg(which)))).unwrap();
    found.map(|bytes| bytes.to_vec())
}

/// Stores all that `desk` holds.
fn save(desk: &mut Desk, store: &MemoryStore) {
    while let Some(batch) = desk.take_batch() {
        now(store.commit(&batch)).unwrap();
        desk.batch_saved();
    }
}

#[test]
fn bytes_are_stored_with_their_record_and_go_with_it() {
    let (mut desk, store) = (Desk::default(), MemoryStore::default());
    for which in [1, 2] {
        desk.perform(keep(&jpeg(which)), stamp(u64::from(which)))
            .unwrap();
    }
    let digest = sha256_hex(&jpeg(1));
    assert_eq!(
        desk.picture(&digest).as_deref(),
        Some(&*jpeg(1)),
        "seen before it is stored"
    );
    assert_eq!(bytes_in(&store, 1), None);
    save(&mut desk, &store);
    assert_eq!(desk.picture(&digest), None, "the store has it now");
    assert_eq!(bytes_in(&store, 1), Some(jpeg(1)));
    let loaded = now(store.load()).unwrap().ledger;
    assert_eq!(&loaded, desk.ledger());
    desk.perform(Command::DropUnusedPictures, stamp(3)).unwrap();
    save(&mut desk, &store);
    assert_eq!((bytes_in(&store, 1), bytes_in(&store, 2)), (None, None));
    assert_eq!(now(store.load()).unwrap().ledger, Ledger::default());
}

#[test]
fn a_batch_that_failed_has_its_bytes_in_the_next_one() {
    let (mut desk, store) = (Desk::default(), MemoryStore::default());
    desk.perform(keep(&jpeg(1)), stamp(1)).unwrap();
    let failed = desk.take_batch().unwrap();
    desk.batch_failed(&StoreError::Full);
    assert_eq!(failed.change.bytes.len(), 1);
    desk.rebase(Ledger::default()).unwrap();
    save(&mut desk, &store);
    assert_eq!(bytes_in(&store, 1), Some(jpeg(1)));
}

#[test]
fn a_picture_kept_and_thrown_away_before_it_was_stored_stores_nothing() {
    let mut desk = Desk::default();
    desk.perform(keep(&jpeg(1)), stamp(1)).unwrap();
    desk.perform(Command::DropUnusedPictures, stamp(2)).unwrap();
    assert_eq!(desk.take_batch(), None);
    assert!(desk.is_saved());
}

#[test]
fn what_two_tabs_keep_is_one_picture() {
    let store = MemoryStore::default();
    let mut tabs = [Desk::default(), Desk::default()];
    for (tab, desk) in (1..).zip(&mut tabs) {
        desk.perform(keep(&jpeg(1)), stamp_of(tab, 1)).unwrap();
    }
    save(&mut tabs[0], &store);
    let late = tabs[1].take_batch().unwrap();
    let refused = now(store.commit(&late)).unwrap_err();
    assert!(matches!(refused, StoreError::Changed { .. }), "{refused}");
    tabs[1].batch_failed(&refused);
    let fresh = now(store.load()).unwrap().ledger;
    assert!(tabs[1].rebase(fresh).unwrap().is_empty());
    save(&mut tabs[1], &store);
    assert_eq!(now(store.load()).unwrap().ledger.pictures().count(), 1);
}

/// A marking with both photos, the pictures of which are kept.
fn with_photos() -> Ledger {
    let (mut ledger, made) = with_draft();
    for (which, photo) in (1..).zip(photos()) {
        ledger = after(&ledger, keep(&jpeg(which)), &stamp(1)).0;
        let edit = Edit::AddPhoto { photo };
        ledger = after(
            &ledger,
            Command::edit(made.marking.unwrap(), edit),
            &stamp(2),
        )
        .0;
    }
    after(&ledger, seal(made.marking.unwrap()), &stamp(3)).0
}

#[test]
fn a_file_brings_pictures_with_their_bytes() {
    let there = with_photos();
    let file = bundle(&there).with_pictures([1, 2].map(|which| picture(&jpeg(which))));
    let file = evenshod::records::Bundle::read(file.write().unwrap().as_bytes()).unwrap();
    let (mut desk, store) = (Desk::default(), MemoryStore::default());
    let take = Command::TakeOver {
        bundle: file.into(),
        leave: [].into(),
    };
    desk.perform(take, stamp(9)).unwrap();
    save(&mut desk, &store);
    assert_eq!(now(store.load()).unwrap().ledger, there);
    assert_eq!(bytes_in(&store, 1), Some(jpeg(1)));
    assert_eq!(bytes_in(&store, 2), Some(jpeg(2)));
}

#[test]
fn an_erased_photo_does_not_come_back_from_a_file_and_goes_on_the_other_device() {
    let old = with_photos();
    let marking = old.markings().next().unwrap().id;
    let erased = after(&old, erase(marking), &stamp(5)).0;
    assert_eq!(erased.pictures().count(), 0);
    let take = |file: &Ledger| Command::TakeOver {
        bundle: bundle(file)
            .with_pictures([1, 2].map(|which| picture(&jpeg(which))))
            .into(),
        leave: [].into(),
    };
    assert_eq!(after(&erased, take(&old), &stamp(6)).0, erased);
    let store = MemoryStore::default();
    let all = old.records().collect();
    let bytes = [1, 2].map(|which| picture(&jpeg(which))).into();
    let change = evenshod::records::Change {
        puts: all,
        bytes,
        ..Default::default()
    };
    now(store.commit(&Batch::of(&Ledger::default(), change))).unwrap();
    let change = apply(&old, take(&erased), &stamp(6)).unwrap();
    let keys: Vec<RecordKey> = change.deletes.clone();
    assert_eq!(keys.len(), 2, "{keys:?}");
    now(store.commit(&Batch::of(&old, change))).unwrap();
    assert_eq!((bytes_in(&store, 1), bytes_in(&store, 2)), (None, None));
}

#[test]
fn a_picture_that_nothing_names_is_not_taken_from_a_file() {
    let file = after(&Ledger::default(), keep(&jpeg(1)), &stamp(1)).0;
    let take = Command::TakeOver {
        bundle: bundle(&file).with_pictures([picture(&jpeg(1))]).into(),
        leave: [].into(),
    };
    assert!(
        apply(&Ledger::default(), take, &stamp(2))
            .unwrap()
            .is_empty()
    );
}
