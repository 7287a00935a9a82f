use evenshod::command::{Command, CommandError, Made, MarkAgain, apply};
use evenshod::records::{Kind, Ledger, PieceId, RecordKey, Role, SittingKind, Unit};

use crate::records::sample::{
    after, level, named, now, seal, stamp, start, start_piece, with_draft,
};

fn again(piece: PieceId, role: Role, examiner: &str) -> Command {
    Command::MarkAgain(Box::new(MarkAgain {
        piece,
        examiner: examiner.to_owned(),
        rubric: None,
        unit: Unit::Inch32,
        role,
        at: now(),
    }))
}

fn sealed() -> (Ledger, Made) {
    let (ledger, made) = with_draft();
    (
        after(&ledger, seal(made.marking.unwrap()), &stamp(1)).0,
        made,
    )
}

#[test]
fn a_second_examiner_marks_a_sealed_piece_blind() {
    let (ledger, first) = sealed();
    let piece = first.piece.unwrap();
    let before = ledger.piece(piece).cloned();
    let (ledger, second) = after(&ledger, again(piece, Role::Second, "Jo Reed"), &stamp(2));
    assert_eq!((second.piece, second.learner), (first.piece, first.learner));
    assert_ne!(second.examiner, first.examiner);
    let marking = ledger.marking(second.marking.unwrap()).unwrap();
    assert_eq!((marking.role, marking.unit), (Role::Second, Unit::Inch32));
    assert_eq!(marking.order, 1, "the first of this examiner");
    assert!(marking.facts.readings.is_empty() && marking.seal.is_none());
    assert_eq!(ledger.piece(piece).cloned(), before, "the piece stays");
    let (ledger, _) = after(&ledger, level(marking.id, "finish", "good"), &stamp(3));
    let (ledger, _) = after(&ledger, seal(second.marking.unwrap()), &stamp(4));
    assert_eq!(ledger.markings_of(piece).count(), 2);
    assert_eq!(ledger.drafts().count(), 0);
}

#[test]
fn the_maker_marks_before_or_after_the_examiner() {
    let (ledger, made) = with_draft();
    let own = again(made.piece.unwrap(), Role::Own, "Ada Smith");
    let (ledger, own) = after(&ledger, own, &stamp(1));
    assert_eq!(
        ledger.marking(own.marking.unwrap()).unwrap().role,
        Role::Own
    );

    let mut what = start_piece(named("Bea Long"));
    (what.role, what.sitting) = (Role::Own, SittingKind::SelfCheck);
    let begun = Command::StartPiece(Box::new(what));
    let (ledger, own) = after(&ledger, begun, &stamp(2));
    let first = again(own.piece.unwrap(), Role::First, "Wm. Green");
    let (ledger, first) = after(&ledger, first, &stamp(3));
    assert_eq!(
        ledger.marking(first.marking.unwrap()).unwrap().role,
        Role::First
    );
}

#[test]
fn each_role_is_there_once_and_the_second_examiner_is_another() {
    let (ledger, made) = with_draft();
    let piece = made.piece.unwrap();
    let refused = |ledger: &Ledger, role, examiner: &str, expect: &str| {
        let error = apply(ledger, again(piece, role, examiner), &stamp(9)).unwrap_err();
        let CommandError::RoleRefused { why, .. } = error else {
            panic!("{error}");
        };
        assert!(why.contains(expect), "{why}");
    };
    refused(&ledger, Role::First, "Jo Reed", "one already");
    refused(&ledger, Role::Second, " wm.  green ", "another");
    refused(&ledger, Role::Agreed, "Jo Reed", "not begun from the piece");
    refused(
        &ledger,
        Role::Amended,
        "Jo Reed",
        "not begun from the piece",
    );
    let (ledger, _) = after(&ledger, again(piece, Role::Second, "Jo Reed"), &stamp(1));
    refused(&ledger, Role::Second, "Kim Hall", "one already");

    let mut what = start_piece(named("Bea Long"));
    what.role = Role::Own;
    let (ledger, own) = after(&ledger, Command::StartPiece(Box::new(what)), &stamp(2));
    let second = again(own.piece.unwrap(), Role::Second, "Jo Reed");
    let error = apply(&ledger, second, &stamp(3)).unwrap_err();
    assert!(error.to_string().contains("marked it first"), "{error}");
}

#[test]
fn applied_again_it_finds_its_marking() {
    let (ledger, made) = sealed();
    let command = again(made.piece.unwrap(), Role::Second, "Jo Reed");
    let (ledger, first) = after(&ledger, command.clone(), &stamp(2));
    let change = apply(&ledger, command, &stamp(2)).unwrap();
    assert!(change.is_empty());
    assert_eq!(change.made, first);
}

#[test]
fn a_piece_that_is_gone_is_told() {
    let (elsewhere, made) = with_draft();
    let piece = made.piece.unwrap();
    let command = again(piece, Role::Second, "Jo Reed");
    let missing = |key| CommandError::Missing { key };
    assert_eq!(
        apply(&Ledger::default(), command.clone(), &stamp(1)),
        Err(missing(RecordKey::new(Kind::Piece, piece)))
    );
    let rubric = elsewhere.piece(piece).unwrap().rubric.clone();
    let without = elsewhere
        .records()
        .filter(|record| record.kind() != Kind::Rubric);
    assert_eq!(
        apply(&Ledger::of(without), command, &stamp(1)),
        Err(missing(RecordKey::new(Kind::Rubric, rubric)))
    );
    // The piece may go in another tab meanwhile.
    let (ledger, _) = after(&Ledger::default(), start(named("Ada Smith")), &stamp(0));
    let piece = ledger.pieces().next().unwrap().id;
    let change = apply(&ledger, again(piece, Role::Second, "Jo Reed"), &stamp(1)).unwrap();
    assert!(
        change
            .relies_on
            .contains(&RecordKey::new(Kind::Piece, piece))
    );
}
