use evenshod::command::{Command, apply};
use evenshod::records::{Ledger, Record};

use super::sample::{after, level, named, seal, stamp, start, with_draft};

#[test]
fn pieces_of_a_learner_come_newest_first_and_markings_oldest_first() {
    let (mut ledger, made) = with_draft();
    let mut pieces = vec![made.piece.unwrap()];
    for (seconds, name) in [(10, "Ada Smith"), (20, "Ben Jones"), (30, "Ada Smith")] {
        let (next, made) = after(&ledger, start(named(name)), &stamp(seconds));
        ledger = next;
        pieces.insert(0, made.piece.unwrap());
    }
    let ids = |pieces: Vec<_>| -> Vec<_> {
        pieces
            .into_iter()
            .map(|piece: &evenshod::records::Piece| piece.id)
            .collect()
    };
    assert_eq!(ids(ledger.pieces().collect()), pieces);
    let ada = ledger.pieces_of(made.learner.unwrap()).collect();
    assert_eq!(ids(ada), [pieces[0], pieces[2], pieces[3]]);
    assert_eq!(ledger.markings_of(pieces[3]).count(), 1);
    assert_eq!(ledger.drafts().count(), 4);
    assert_eq!(ledger.drafts().next().unwrap().piece, pieces[0]);
}

#[test]
fn look_ups_follow_sealing_and_deleting() {
    let (ledger, made) = with_draft();
    let marking = made.marking.unwrap();
    let sealed = after(&ledger, seal(marking), &stamp(1)).0;
    assert_eq!(sealed.drafts().count(), 0);
    assert_eq!(sealed.markings().count(), 1);

    let gone = after(&ledger, Command::DeleteDraft { marking }, &stamp(1)).0;
    assert_eq!(gone.drafts().count(), 0);
    assert_eq!(gone.pieces_of(made.learner.unwrap()).count(), 0);
    assert_eq!(gone.markings_of(made.piece.unwrap()).count(), 0);
    assert_eq!(gone.latest(), Some(&stamp(0)), "the clock goes on from it");
}

#[test]
fn a_clone_stays_as_it_was() {
    let (ledger, made) = with_draft();
    let marking = made.marking.unwrap();
    let kept = ledger.clone();
    let changed = after(&ledger, level(marking, "finish", "good"), &stamp(1)).0;
    assert_eq!(kept, ledger);
    assert_ne!(kept, changed);
}

#[test]
fn of_two_records_under_one_key_the_later_stamp_stays_in_any_order() {
    let (ledger, made) = with_draft();
    let marking = made.marking.unwrap();
    let change = apply(&ledger, level(marking, "finish", "good"), &stamp(1)).unwrap();
    let newer = change.puts[0].clone();
    let older: Vec<Record> = ledger.records().collect();
    let ahead = Ledger::of([newer.clone()].into_iter().chain(older.clone()));
    let behind = Ledger::of(older.into_iter().chain([newer.clone()]));
    assert_eq!(ahead, behind);
    assert_eq!(ahead.get(&newer.key()), Some(newer.clone()));
    assert_eq!(ahead.latest(), Some(newer.stamp()));
}

#[test]
fn records_name_only_what_comes_before_them() {
    let (ledger, _) = with_draft();
    let kinds: Vec<_> = ledger.records().map(|record| record.kind()).collect();
    assert!(kinds.is_sorted(), "{kinds:?}");
}
