//! A piece for two examiners, and the marking that they agree on.

use evenshod::command::{Amend, Command, CommandError, StartPiece, apply};
use evenshod::marking::Settlement;
use evenshod::records::{Ledger, Role};

use crate::records::sample::{named, now, seal, stamp, start_piece};
use crate::records::two::{Two, again, agree, settle};

#[track_caller]
fn refused(ledger: &Ledger, command: Command, expect: &str) {
    let error = apply(ledger, command, &stamp(99)).unwrap_err();
    assert!(error.to_string().contains(expect), "{error}");
}

#[test]
fn two_examiners_are_begun_at_once_and_are_not_one_person() {
    let two = Two::begun("", ["8", "9"], ["8", "7"]);
    let drafts = two.ledger.standing(two.piece);
    let roles: Vec<Role> = drafts.drafts().iter().map(|draft| draft.role).collect();
    assert_eq!(roles, [Role::First, Role::Second]);
    let [one, other] = [two.first, two.second].map(|id| two.ledger.marking(id).unwrap().examiner);
    assert_ne!(one, other);
    let what = StartPiece {
        second: Some(" wm. GREEN".to_owned()),
        ..start_piece(named("Ada Smith"))
    };
    let start = Command::StartPiece(Box::new(what));
    refused(&Ledger::default(), start, "name another examiner");
}

#[test]
fn a_third_examiner_marks_after_two_and_is_another() {
    let two = Two::begun("", ["8", "9"], ["8", "7"]);
    let third = |name: &str| again(two.piece, Role::Third, name);
    refused(&two.ledger, third("Jo Reed"), "has marked it already");
    assert!(apply(&two.ledger, third("C. Lowe"), &stamp(99)).is_ok());
    let mut alone = Two::begun("", ["8", "9"], ["8", "7"]);
    alone.perform(Command::DeleteDraft {
        marking: alone.second,
    });
    let third = again(alone.piece, Role::Third, "C. Lowe");
    refused(&alone.ledger, third, "nobody has marked it second");
}

#[test]
fn examiners_agree_once_all_have_sealed() {
    let mut two = Two::begun("", ["8", "9"], ["8", "7"]);
    refused(&two.ledger, agree(two.piece), "still open");
    two.perform(seal(two.first));
    refused(&two.ledger, agree(two.piece), "still open");
    let mut alone = two.clone();
    alone.perform(Command::DeleteDraft {
        marking: alone.second,
    });
    refused(&alone.ledger, agree(alone.piece), "have it marked again");
    two.perform(seal(two.second));
    let agreed = two.agree();
    let marking = two.ledger.marking(agreed).unwrap();
    assert_eq!(marking.role, Role::Agreed);
    let from = marking.agreement.as_ref().unwrap().from.iter();
    assert_eq!(
        from.map(|one| one.marking).collect::<Vec<_>>(),
        [two.first, two.second]
    );
    refused(&two.ledger, agree(two.piece), "one already");
    // Nobody marks blind beside those who have seen all.
    let third = again(two.piece, Role::Third, "C. Lowe");
    refused(&two.ledger, third, "are agreeing");
    refused(&two.ledger, again(two.piece, Role::Own, ""), "are agreeing");
}

#[test]
fn awards_that_differ_wait_for_a_third_examiner_where_the_rubric_says_so() {
    let two = Two::sealed("third_examiner = true", ["8", "9"], ["5", "4"]);
    refused(&two.ledger, agree(two.piece), "third examiner");
}

#[test]
fn it_is_sealed_once_everything_is_settled() {
    let mut two = Two::sealed("", ["8", "9"], ["7", "7"]);
    let agreed = two.agree();
    let error = apply(&two.ledger, seal(agreed), &stamp(99)).unwrap_err();
    assert_eq!(error, CommandError::NotSettled { count: 2 });
    two.perform(settle(agreed, "finish", Settlement::Mean, "seen again"));
    two.perform(settle(agreed, "outline", Settlement::From(two.first), ""));
    let error = apply(&two.ledger, seal(agreed), &stamp(99)).unwrap_err();
    assert_eq!(
        error,
        CommandError::NotSettled { count: 1 },
        "without a reason"
    );
    two.perform(settle(
        agreed,
        "outline",
        Settlement::From(two.first),
        "held to the light",
    ));
    two.perform(seal(agreed));
    let correct = Command::Amend(Box::new(Amend {
        marking: agreed,
        examiner: "Jo Reed".to_owned(),
        reason: "the wrong shoe".to_owned(),
        at: now(),
    }));
    refused(&two.ledger, correct, "then agree anew");
    // A marking that is not agreed has nothing to settle.
    let change = apply(
        &two.ledger,
        settle(two.first, "outline", Settlement::Mean, "x"),
        &stamp(99),
    );
    assert!(matches!(change, Err(CommandError::Sealed { .. })));
}

#[test]
fn a_draft_of_one_examiner_takes_no_settlement() {
    let mut two = Two::begun("", ["8", "9"], ["7", "7"]);
    let before = two.ledger.marking(two.first).cloned();
    two.perform(settle(two.first, "outline", Settlement::Mean, "x"));
    assert_eq!(two.ledger.marking(two.first).cloned(), before);
}
