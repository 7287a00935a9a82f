use evenshod::command::{Amend, Command, CommandError, Made, apply, removal};
use evenshod::records::{
    Deed, ExaminerId, Kind, Ledger, PieceId, RecordKey, Release, Role, SittingId, check_seal,
};

use crate::records::sample::{
    after, device, feedback, now, seal, stamp, stamp_of, with_draft, with_exam_draft,
};

fn sitting(ledger: &Ledger) -> SittingId {
    ledger.sittings().next().unwrap().id
}

fn release(ledger: &Ledger, made: &Made) -> Command {
    Command::Release {
        sitting: sitting(ledger),
        by: made.examiner.unwrap(),
        at: now(),
    }
}

fn hold_back(ledger: &Ledger, made: &Made) -> Command {
    Command::HoldBack {
        sitting: sitting(ledger),
        by: made.examiner.unwrap(),
        at: now(),
    }
}

fn sealed() -> (Ledger, Made) {
    let (ledger, made) = with_exam_draft();
    let seal = seal(made.marking.unwrap());
    (after(&ledger, seal, &stamp(50)).0, made)
}

fn refused(ledger: &Ledger, command: Command) -> CommandError {
    apply(ledger, command, &stamp(90)).unwrap_err()
}

#[test]
fn a_release_says_when_and_by_whom_and_stays() {
    let (ledger, made) = sealed();
    let command = release(&ledger, &made);
    let change = apply(&ledger, command.clone(), &stamp(60)).unwrap();
    let by = made.examiner.unwrap();
    assert_eq!(change.relies_on, [RecordKey::new(Kind::Examiner, by)]);
    let ledger = ledger.with(&change);
    let id = sitting(&ledger);
    let expected = Release {
        at: now(),
        by,
        held_back: None,
    };
    assert_eq!(ledger.sitting(id).unwrap().release(), Some(&expected));
    assert!(apply(&ledger, command, &stamp(70)).unwrap().is_empty());
    let marking = ledger.marking(made.marking.unwrap()).unwrap();
    let parts = ledger.seal_parts(marking).unwrap();
    assert!(
        check_seal(parts).unwrap().intact,
        "it stands beside the seal"
    );
}

#[test]
fn it_can_be_held_back_with_the_day_and_by_whom_and_released_anew() {
    let (ledger, made) = sealed();
    let not_yet = apply(&ledger, hold_back(&ledger, &made), &stamp(60)).unwrap();
    assert!(not_yet.is_empty(), "it is held already");
    let (ledger, _) = after(&ledger, release(&ledger, &made), &stamp(60));
    let (ledger, _) = after(&ledger, hold_back(&ledger, &made), &stamp(61));
    let held = ledger.sitting(sitting(&ledger)).unwrap();
    let by = made.examiner.unwrap();
    assert!(held.is_held());
    let kept = held.released.unwrap();
    assert_eq!(
        (kept.by, kept.held_back),
        (by, Some(Deed { at: now(), by }))
    );
    let (ledger, _) = after(&ledger, release(&ledger, &made), &stamp(62));
    assert!(!ledger.sitting(sitting(&ledger)).unwrap().is_held());
}

#[test]
fn nothing_is_released_before_it_is_sealed_or_while_it_is_marked_unseen() {
    let (draft, made) = with_exam_draft();
    let open = refused(&draft, release(&draft, &made));
    assert_eq!(open, CommandError::StillOpen { count: 1 });
    assert_eq!(
        open.to_string(),
        "of this sitting 1 marking is still open; seal every marking that is made unseen by \
         others, or throw it away, then release the sitting"
    );
    // Its piece without a marking.
    let records = draft.records();
    let empty = Ledger::of(records.filter(|record| record.kind() != Kind::Marking));
    let nothing = refused(&empty, release(&empty, &made));
    assert_eq!(nothing, CommandError::NothingSealed);
    // A correction that is begun hinders nothing: what it corrects counts.
    let (ledger, made) = sealed();
    let correct = Amend {
        marking: made.marking.unwrap(),
        examiner: "Jo Reed".to_owned(),
        reason: "read from the wrong line".to_owned(),
        at: now(),
    };
    let correct = Command::Amend(Box::new(correct));
    let (ledger, correction) = after(&ledger, correct, &stamp(60));
    let role = ledger.marking(correction.marking.unwrap()).unwrap().role;
    assert_eq!(role, Role::Amended);
    after(&ledger, release(&ledger, &made), &stamp(61));
}

#[test]
fn what_is_not_there_or_needs_no_release_is_told() {
    let (ledger, made) = sealed();
    let (by, at) = (made.examiner.unwrap(), now());
    let nowhere = SittingId::made_by(&stamp(99), 2);
    let missing = |kind, id: &dyn ToString| CommandError::Missing {
        key: RecordKey::new(kind, id.to_string()),
    };
    let unknown = Command::Release {
        sitting: nowhere,
        by,
        at,
    };
    assert_eq!(refused(&ledger, unknown), missing(Kind::Sitting, &nowhere));
    let nobody = ExaminerId::made_by(&stamp(99), 1);
    let by_nobody = Command::Release {
        sitting: sitting(&ledger),
        by: nobody,
        at,
    };
    assert_eq!(
        refused(&ledger, by_nobody),
        missing(Kind::Examiner, &nobody)
    );
    let nothing = PieceId::made_by(&stamp(99), 3);
    let of_nothing = Command::GiveFeedback {
        piece: nothing,
        by,
        at,
    };
    assert_eq!(refused(&ledger, of_nothing), missing(Kind::Piece, &nothing));
    let (practice, made) = with_draft();
    for command in [release(&practice, &made), hold_back(&practice, &made)] {
        let said = refused(&practice, command).to_string();
        assert!(
            said.starts_with("marks of a practice are released by sealing"),
            "{said}"
        );
    }
}

#[test]
fn feedback_is_noted_once_marks_may_be_seen_and_can_be_taken_back() {
    let (draft, made) = with_draft();
    assert_eq!(
        refused(&draft, feedback(&made)),
        CommandError::NothingToTell
    );
    let (ledger, made) = sealed();
    assert_eq!(refused(&ledger, feedback(&made)), CommandError::Held);
    let (ledger, _) = after(&ledger, release(&ledger, &made), &stamp(60));
    let change = apply(&ledger, feedback(&made), &stamp(61)).unwrap();
    let key = RecordKey::new(Kind::Sitting, sitting(&ledger));
    assert!(
        change.relies_on.contains(&key),
        "it must not be held back meanwhile"
    );
    let ledger = ledger.with(&change);
    let piece = made.piece.unwrap();
    let by = made.examiner.unwrap();
    let given = ledger.piece(piece).unwrap().feedback;
    assert_eq!(given, Some(Deed { at: now(), by }));
    assert!(
        apply(&ledger, feedback(&made), &stamp(62))
            .unwrap()
            .is_empty()
    );
    let marking = ledger.marking(made.marking.unwrap()).unwrap();
    let parts = ledger.seal_parts(marking).unwrap();
    assert!(
        check_seal(parts).unwrap().intact,
        "it stands beside the seal"
    );
    let take_back = Command::TakeBackFeedback { piece };
    let (ledger, _) = after(&ledger, take_back.clone(), &stamp(63));
    assert_eq!(ledger.piece(piece).unwrap().feedback, None);
    assert!(apply(&ledger, take_back, &stamp(64)).unwrap().is_empty());
}

#[test]
fn whoever_released_or_told_stays_when_all_of_their_device_goes() {
    let (ledger, made) = sealed();
    let name = "Jo Reed".to_owned();
    let (ledger, added) = after(&ledger, Command::AddExaminer { name }, &stamp_of(2, 60));
    let jo = added.examiner.unwrap();
    let stays = |ledger: &Ledger| removal(ledger, &device(2)).stays;
    assert_eq!(stays(&ledger), []);
    let (by_jo, key) = (
        Made {
            examiner: Some(jo),
            ..made
        },
        RecordKey::new(Kind::Examiner, jo),
    );
    let (by_another, _) = after(&ledger, release(&ledger, &made), &stamp(61));
    assert_eq!(stays(&by_another), []);
    let (held, _) = after(&by_another, hold_back(&ledger, &by_jo), &stamp(62));
    let (released, _) = after(&ledger, release(&ledger, &by_jo), &stamp(61));
    let (told, _) = after(&by_another, feedback(&by_jo), &stamp(62));
    for ledger in [held, released, told] {
        assert_eq!(stays(&ledger), std::slice::from_ref(&key));
    }
}
