//! What may be shown of a piece while somebody marks it blind.

use evenshod::command::{Command, MarkAgain};
use evenshod::records::{Ledger, MarkingId, PieceId, Role, Unit};

use super::sample::{after, now, seal, stamp, with_draft};

/// One more marking of `piece`, begun `seconds` after the first.
fn again(ledger: &Ledger, piece: PieceId, role: Role, seconds: u64) -> (Ledger, MarkingId) {
    let what = MarkAgain {
        piece,
        examiner: format!("Examiner {seconds}"),
        rubric: None,
        unit: Unit::Millimetre,
        role,
        at: now(),
    };
    let (ledger, made) = after(ledger, Command::MarkAgain(Box::new(what)), &stamp(seconds));
    (ledger, made.marking.unwrap())
}

fn sealed(ledger: &Ledger, marking: MarkingId, seconds: u64) -> Ledger {
    after(ledger, seal(marking), &stamp(seconds)).0
}

/// The ids of what is sealed and may be seen.
fn seen(ledger: &Ledger, piece: PieceId) -> Vec<MarkingId> {
    let standing = ledger.standing(piece);
    standing.sealed().iter().map(|marking| marking.id).collect()
}

#[test]
fn nothing_sealed_is_seen_before_every_blind_marking_is() {
    for (early, late) in [(0, 1), (1, 0)] {
        let (ledger, made) = with_draft();
        let piece = made.piece.unwrap();
        let (ledger, own) = again(&ledger, piece, Role::Own, 10);
        let both = [made.marking.unwrap(), own];
        assert!(!ledger.standing(piece).is_unseen());
        let ledger = sealed(&ledger, both[early], 20);
        let standing = ledger.standing(piece);
        assert!(standing.is_unseen());
        assert_eq!(standing.counts(), None);
        assert_eq!(standing.own(), None);
        assert_eq!(standing.drafts().len(), 1);
        assert_eq!(seen(&ledger, piece), []);
        let ledger = sealed(&ledger, both[late], 30);
        assert_eq!(seen(&ledger, piece), both);
        let standing = ledger.standing(piece);
        assert_eq!(standing.counts().unwrap().id, both[0]);
        let (own, counts) = standing.own_and_counting().unwrap();
        assert_eq!([counts.id, own.id], both);
    }
}

#[test]
fn a_second_examiner_hides_the_first_ones_marks() {
    let (ledger, made) = with_draft();
    let (piece, first) = (made.piece.unwrap(), made.marking.unwrap());
    let ledger = sealed(&ledger, first, 10);
    assert_eq!(ledger.standing(piece).counts().unwrap().id, first);
    let (ledger, second) = again(&ledger, piece, Role::Second, 20);
    assert_eq!(ledger.standing(piece).counts(), None);
    let ledger = sealed(&ledger, second, 30);
    assert_eq!(seen(&ledger, piece), [first, second]);
}

#[test]
fn a_piece_that_only_its_maker_marked_stands_for_that() {
    let (ledger, made) = with_draft();
    let piece = made.piece.unwrap();
    let (ledger, own) = again(&ledger, piece, Role::Own, 10);
    let drop_draft = Command::DeleteDraft {
        marking: made.marking.unwrap(),
    };
    let ledger = sealed(&ledger, own, 20);
    let (ledger, _) = after(&ledger, drop_draft, &stamp(30));
    let standing = ledger.standing(piece);
    assert_eq!(standing.counts().unwrap().id, own);
    assert_eq!(standing.own_and_counting(), None);
}

#[test]
fn a_piece_without_markings_stands_for_nothing() {
    let (ledger, made) = with_draft();
    let other = evenshod::records::PieceId::made_by(&stamp(99), 3);
    assert_ne!(made.piece, Some(other));
    assert_eq!(ledger.standing(other).drafts().len(), 0);
    assert_eq!(ledger.standing(other).counts(), None);
}
