//! Whose marks a learner may see, and since when.

use evenshod::command::{Command, Made};
use evenshod::records::{Ledger, Role, SittingKind, Whom};

use super::sample::{after, named, now, seal, stamp, start_piece};

/// A piece of a sitting of this kind with its examiner's marking, and its maker's own
/// where that is asked for, all sealed.
fn sealed(kind: SittingKind, has_own: bool) -> (Ledger, Made) {
    let mut what = start_piece(named("Ada Smith"));
    what.sitting = kind;
    what.own = has_own.then(Default::default);
    let begin = Command::StartPiece(Box::new(what));
    let (mut ledger, made) = after(&Ledger::default(), begin, &stamp(0));
    let markings = ledger.markings_of(made.piece.unwrap());
    let ids: Vec<_> = markings.map(|marking| marking.id).collect();
    for (seconds, id) in (1..).zip(ids) {
        ledger = after(&ledger, seal(id), &stamp(seconds)).0;
    }
    (ledger, made)
}

fn release(ledger: &Ledger, made: &Made) -> Command {
    Command::Release {
        sitting: ledger.sittings().next().unwrap().id,
        by: made.examiner.unwrap(),
        at: now(),
    }
}

#[test]
fn practice_and_self_check_are_released_by_sealing_mock_and_exam_by_somebody() {
    for kind in SittingKind::ALL {
        let (ledger, made) = sealed(kind, false);
        let piece = made.piece.unwrap();
        let waits = matches!(kind, SittingKind::Mock | SittingKind::Exam);
        assert_eq!(ledger.sittings().next().unwrap().is_held(), waits);
        let standing = ledger.standing_for(piece, Whom::Learner);
        assert_eq!(standing.is_held(), waits, "{kind:?}");
        assert_eq!(standing.counts().is_none(), waits, "{kind:?}");
        assert_eq!(standing.sealed().is_empty(), waits, "{kind:?}");
        let standing = ledger.standing(piece);
        assert!(!standing.is_held(), "examiners see what they seal");
        assert_eq!(standing.counts().map(|one| one.id), made.marking);
        if waits {
            let command = release(&ledger, &made);
            let (ledger, _) = after(&ledger, command, &stamp(10));
            assert!(!ledger.sittings().next().unwrap().is_held());
            let standing = ledger.standing_for(piece, Whom::Learner);
            assert!(!standing.is_held());
            assert_eq!(standing.counts().map(|one| one.id), made.marking);
        }
    }
}

#[test]
fn what_the_maker_gave_is_never_held_back() {
    let (ledger, made) = sealed(SittingKind::Exam, true);
    let piece = made.piece.unwrap();
    let standing = ledger.standing_for(piece, Whom::Learner);
    let own = standing.own().unwrap();
    assert_eq!(own.role, Role::Own);
    assert_eq!(standing.sealed(), [own]);
    assert_eq!(
        (standing.counts(), standing.own_and_counting()),
        (None, None)
    );
    assert!(standing.is_held() && !standing.is_apart());
    // Alone it is what the piece stands for.
    let mut what = start_piece(named("Ada Smith"));
    (what.sitting, what.role) = (SittingKind::Exam, Role::Own);
    let begin = Command::StartPiece(Box::new(what));
    let (ledger, made) = after(&Ledger::default(), begin, &stamp(0));
    let (ledger, _) = after(&ledger, seal(made.marking.unwrap()), &stamp(1));
    let standing = ledger.standing_for(made.piece.unwrap(), Whom::Learner);
    assert!(!standing.is_held());
    assert_eq!(standing.counts().map(|own| own.id), made.marking);
}

#[test]
fn while_a_marking_is_made_blind_that_goes_before() {
    let mut what = start_piece(named("Ada Smith"));
    what.sitting = SittingKind::Exam;
    what.second = Some("Jo Reed".to_owned());
    let begin = Command::StartPiece(Box::new(what));
    let (ledger, made) = after(&Ledger::default(), begin, &stamp(0));
    let (ledger, _) = after(&ledger, seal(made.marking.unwrap()), &stamp(1));
    for whom in [Whom::Learner, Whom::Examiner] {
        let standing = ledger.standing_for(made.piece.unwrap(), whom);
        assert!(standing.is_unseen() && standing.is_apart() && !standing.is_held());
        assert_eq!((standing.unseen().len(), standing.counts()), (1, None));
    }
}

/// It may be one that waits: nothing is shown that somebody may be holding back.
#[test]
fn marks_of_a_sitting_that_is_not_here_are_held_back() {
    let (ledger, made) = sealed(SittingKind::Practice, false);
    let records = ledger.records();
    let without = records.filter(|record| record.kind() != evenshod::records::Kind::Sitting);
    let ledger = Ledger::of(without);
    let piece = made.piece.unwrap();
    assert!(ledger.is_held(piece, Whom::Learner));
    assert!(!ledger.is_held(piece, Whom::Examiner));
}
