use evenshod::command::{Command, CommandError};
use evenshod::records::{Kind, Ledger, MarkingId, RecordKey};
use evenshod::store::{Batch, BatchInFlight, Desk, StoreError};

use crate::records::sample::{after, level, named, seal, stamp, stamp_of, start, with_draft};

fn desk_with_draft() -> (Desk, MarkingId) {
    let (ledger, made) = with_draft();
    (Desk::new(ledger), made.marking.unwrap())
}

fn finish(desk: &Desk, marking: MarkingId) -> &str {
    &desk.ledger().marking(marking).unwrap().facts.levels["finish"]
}

#[test]
fn commands_show_at_once_and_many_make_one_put() {
    let (mut desk, marking) = desk_with_draft();
    assert!(desk.is_saved());
    for (seconds, text) in (1..).zip(["g", "go", "goo", "good"]) {
        desk.perform(level(marking, "finish", text), stamp(seconds))
            .unwrap();
        assert_eq!(finish(&desk, marking), text);
    }
    assert!(!desk.is_saved());
    let batch = desk.take_batch().unwrap();
    assert_eq!(batch.change.puts.len(), 1);
    assert_eq!(batch.change.puts[0].stamp(), &stamp(4));
    let key = RecordKey::new(Kind::Marking, marking);
    assert_eq!(batch.base, [(key, Some(stamp(0)))].into());
    desk.batch_saved();
    assert!(desk.is_saved());
    assert_eq!(desk.take_batch(), None);
}

#[test]
fn one_batch_is_under_way_and_what_comes_meanwhile_goes_next() {
    let (mut desk, marking) = desk_with_draft();
    desk.perform(level(marking, "finish", "fair"), stamp(1))
        .unwrap();
    desk.take_batch().unwrap();
    assert!(desk.is_saving());
    desk.perform(level(marking, "finish", "good"), stamp(2))
        .unwrap();
    assert_eq!(desk.take_batch(), None);
    desk.batch_saved();
    assert!(!desk.is_saved());
    let next = desk.take_batch().unwrap();
    let base: Vec<_> = next.base.values().collect();
    assert_eq!(base, [&Some(stamp(1))]);
}

#[test]
fn a_failed_batch_is_in_the_next_one() {
    let (mut desk, marking) = desk_with_draft();
    desk.perform(level(marking, "finish", "fair"), stamp(1))
        .unwrap();
    let failed = desk.take_batch().unwrap();
    desk.batch_failed(&StoreError::Full);
    assert!(!desk.is_saved() && !desk.is_saving());
    assert_eq!(desk.take_batch(), Some(failed));
}

#[test]
fn a_piece_begun_and_edited_is_stored_as_one_change() {
    let mut desk = Desk::new(Ledger::default());
    let made = desk.perform(start(named("Ada Smith")), stamp(0)).unwrap();
    let marking = made.marking.unwrap();
    desk.perform(level(marking, "finish", "good"), stamp(1))
        .unwrap();
    let batch = desk.take_batch().unwrap();
    assert_eq!(batch.change.puts.len(), 6);
    assert!(batch.base.values().all(Option::is_none));
    assert_eq!(Ledger::default().with(&batch.change), *desk.ledger());
}

#[test]
fn what_is_made_and_deleted_before_it_is_stored_leaves_only_what_stays() {
    let (mut desk, _) = desk_with_draft();
    let made = desk.perform(start(named("Ada Smith")), stamp(1)).unwrap();
    let marking = made.marking.unwrap();
    desk.perform(Command::DeleteDraft { marking }, stamp(2))
        .unwrap();
    assert_eq!(desk.take_batch(), None);
    assert!(desk.is_saved());
}

#[test]
fn a_refused_command_changes_nothing() {
    let (mut desk, marking) = desk_with_draft();
    desk.perform(seal(marking), stamp(1)).unwrap();
    let before = desk.ledger().clone();
    let refused = desk.perform(level(marking, "finish", "good"), stamp(2));
    assert!(matches!(refused, Err(CommandError::Sealed { .. })));
    assert_eq!(*desk.ledger(), before);
}

#[test]
fn rebasing_keeps_both_tabs_fields_and_reports_what_no_longer_applies() {
    let (mut desk, marking) = desk_with_draft();
    let stored = desk.ledger().clone();
    desk.perform(level(marking, "finish", "good"), stamp(1))
        .unwrap();
    let (other, _) = after(&stored, level(marking, "balance", "fair"), &stamp_of(2, 1));
    desk.take_batch().unwrap();
    assert_eq!(desk.rebase(other.clone()), Err(BatchInFlight));
    let key = RecordKey::new(Kind::Marking, marking);
    desk.batch_failed(&StoreError::Changed { key });
    assert_eq!(desk.rebase(other.clone()), Ok(vec![]));
    let levels = &desk.ledger().marking(marking).unwrap().facts.levels;
    assert_eq!((&*levels["finish"], &*levels["balance"]), ("good", "fair"));
    let batch = desk.take_batch().unwrap();
    assert_eq!(batch.base.values().next(), Some(&Some(stamp_of(2, 1))));
    assert!(*batch.change.puts[0].stamp() > stamp_of(2, 1));
    desk.batch_failed(&StoreError::Full);

    let (sealed, _) = after(&other, seal(marking), &stamp_of(2, 2));
    let refused = desk.rebase(sealed.clone()).unwrap();
    let [(command, CommandError::Sealed { .. })] = &refused[..] else {
        panic!("{refused:?}");
    };
    assert_eq!(*command, level(marking, "finish", "good"));
    assert_eq!(*desk.ledger(), sealed);
    assert!(desk.is_saved());
}

#[test]
fn a_piece_begun_keeps_its_id_over_a_rebase() {
    let (mut desk, _) = desk_with_draft();
    let stored = desk.ledger().clone();
    let made = desk.perform(start(named("Ben Jones")), stamp(5)).unwrap();
    let other = after(&stored, start(named("Cy Field")), &stamp_of(2, 9)).0;
    assert_eq!(desk.rebase(other), Ok(vec![]));
    let marking = desk.ledger().marking(made.marking.unwrap()).unwrap();
    assert_eq!(Some(marking.piece), made.piece);
    assert_eq!(marking.order, 3, "counted anew after the other tab's");
}

/// A batch that timed out may be stored after all; then its commands are done,
/// and a seal among them is no error.
#[test]
fn a_batch_that_timed_out_but_is_stored_is_not_applied_twice() {
    let (mut desk, marking) = desk_with_draft();
    desk.perform(level(marking, "finish", "fair"), stamp(1))
        .unwrap();
    desk.perform(level(marking, "finish", "good"), stamp(2))
        .unwrap();
    desk.perform(seal(marking), stamp(3)).unwrap();
    let stored = desk.ledger().clone();
    let Batch { .. } = desk.take_batch().unwrap();
    desk.batch_failed(&StoreError::TimedOut);
    desk.perform(start(named("Ada Smith")), stamp(4)).unwrap();
    assert_eq!(desk.rebase(stored), Ok(vec![]));
    assert!(
        !desk.is_saved(),
        "the piece begun since is still to be stored"
    );
    assert_eq!(desk.take_batch().unwrap().change.puts.len(), 2);
}

#[test]
fn giving_up_a_record_lets_the_rest_be_stored() {
    let (mut desk, marking) = desk_with_draft();
    desk.perform(level(marking, "finish", "good"), stamp(1))
        .unwrap();
    let mut what = crate::records::sample::start_piece(named("Ada Smith"));
    what.rubric = crate::records::sample::rubric("2");
    let key = RecordKey::new(Kind::Rubric, &what.rubric.digest);
    let begun = desk
        .perform(Command::StartPiece(Box::new(what)), stamp(2))
        .unwrap();
    let begun = begun.marking.unwrap();
    desk.perform(level(begun, "finish", "fair"), stamp(3))
        .unwrap();
    let refused = desk.give_up(&key).unwrap();
    assert_eq!(refused.len(), 2, "the piece, and the edit that needs it");
    assert!(desk.ledger().marking(begun).is_none());
    assert_eq!(finish(&desk, marking), "good");
    assert_eq!(desk.take_batch().unwrap().change.puts.len(), 1);
}

/// A record that is only relied on is written by nobody, so nothing can be given up: the
/// page has to stop and say so instead of trying for ever.
#[test]
fn a_record_that_is_only_relied_on_gives_nothing_up() {
    let (mut desk, marking) = desk_with_draft();
    desk.perform(level(marking, "finish", "good"), stamp(1))
        .unwrap();
    let rubric = desk.ledger().marking(marking).unwrap().rubric.clone();
    let key = RecordKey::new(Kind::Rubric, &rubric);
    assert_eq!(desk.give_up(&key), Ok(vec![]));
    assert!(!desk.is_saved(), "the edit is still to be stored");
}
