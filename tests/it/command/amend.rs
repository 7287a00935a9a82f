//! Corrections of sealed markings, and the erasing of what was written in them.

use evenshod::command::{Amend, Command, CommandError, MarkAgain, apply};
use evenshod::records::{Ledger, MarkingId, PersonalText, Role, SignedDigest, Unit, check_seal};

use crate::records::sample::{
    after, comment, erase, level, now, seal, signature, stamp, with_full_draft,
};

fn sealed() -> (Ledger, MarkingId) {
    let (ledger, made) = with_full_draft();
    let marking = made.marking.unwrap();
    (after(&ledger, seal(marking), &stamp(50)).0, marking)
}

fn amend(marking: MarkingId, examiner: &str, reason: &str) -> Command {
    Command::Amend(Box::new(Amend {
        marking,
        examiner: examiner.to_owned(),
        reason: reason.to_owned(),
        at: now(),
    }))
}

fn refused(ledger: &Ledger, command: Command) -> String {
    let error = apply(ledger, command, &stamp(90)).unwrap_err();
    error.to_string()
}

#[test]
fn a_correction_begins_with_what_was_sealed_and_names_it() {
    let (ledger, old) = sealed();
    let command = amend(old, "Nora Finch", "  toe read from the wrong shoe ");
    let (ledger, made) = after(&ledger, command.clone(), &stamp(60));
    let new = ledger.marking(made.marking.unwrap()).unwrap();
    let before = ledger.marking(old).unwrap();
    assert_eq!(new.role, Role::Amended);
    assert_eq!(new.facts, before.facts);
    assert_eq!(new.comments, before.comments);
    assert_eq!((&new.overall, new.unit), (&before.overall, before.unit));
    assert!(new.seal.is_none());
    let replaces = new.replaces.as_ref().unwrap();
    assert_eq!(replaces.marking, old);
    assert_eq!(replaces.reason, "toe read from the wrong shoe");
    assert_eq!(ledger.examiner(new.examiner).unwrap().name, "Nora Finch");
    // Carried out again, as after another tab's word, it makes nothing more.
    assert!(apply(&ledger, command, &stamp(60)).unwrap().is_empty());
}

#[test]
fn sealed_it_counts_and_both_stay() {
    let (ledger, old) = sealed();
    let piece = ledger.marking(old).unwrap().piece;
    let (ledger, made) = after(&ledger, amend(old, "Wm. Green", "misread"), &stamp(60));
    let new = made.marking.unwrap();
    assert_eq!(ledger.standing(piece).counts().unwrap().id, old);
    let ledger = after(&ledger, level(new, "finish", "fair"), &stamp(61)).0;
    let ledger = after(&ledger, seal(new), &stamp(62)).0;
    assert_eq!(ledger.standing(piece).counts().unwrap().id, new);
    for id in [old, new] {
        let marking = ledger.marking(id).unwrap();
        let parts = ledger.seal_parts(marking).unwrap();
        assert!(check_seal(parts).unwrap().intact);
    }
    // And a correction can be corrected.
    assert!(refused(&ledger, amend(old, "Wm. Green", "x")).contains("correct that one"));
    assert!(apply(&ledger, amend(new, "Wm. Green", "x"), &stamp(70)).is_ok());
}

#[test]
fn thrown_away_before_its_seal_it_leaves_no_trace() {
    let (ledger, old) = sealed();
    let (begun, made) = after(&ledger, amend(old, "Wm. Green", "misread"), &stamp(60));
    let marking = made.marking.unwrap();
    assert!(refused(&begun, amend(old, "Wm. Green", "x")).contains("go on with that one"));
    let after_it = after(&begun, Command::DeleteDraft { marking }, &stamp(61)).0;
    assert!(after_it.records().eq(ledger.records()));
}

#[test]
fn what_cannot_be_corrected_says_why() {
    let (ledger, old) = sealed();
    let no_reason = apply(&ledger, amend(old, "Wm. Green", " \n "), &stamp(90));
    assert_eq!(no_reason, Err(CommandError::NoReason));
    assert!(refused(&ledger, amend(old, " ", "x")).contains("the examiner has no name"));
    assert!(refused(&ledger, amend(MarkingId::LEAST, "A", "x")).contains("is not in this ledger"));
    let (draft, made) = with_full_draft();
    let error = refused(&draft, amend(made.marking.unwrap(), "A", "x"));
    assert!(error.contains("it is a draft still"), "{error}");

    let own = Command::MarkAgain(Box::new(MarkAgain {
        piece: ledger.marking(old).unwrap().piece,
        examiner: String::new(),
        rubric: None,
        unit: Unit::Millimetre,
        role: Role::Own,
        at: now(),
    }));
    let (ledger, made) = after(&ledger, own, &stamp(60));
    assert!(refused(&ledger, amend(old, "A", "x")).contains("still made unseen"));
    let own = made.marking.unwrap();
    let ledger = after(&ledger, seal(own), &stamp(61)).0;
    assert!(refused(&ledger, amend(own, "A", "x")).contains("the maker’s own"));
}

#[test]
fn erased_comments_are_gone_and_the_seal_stands() {
    let (ledger, marking) = sealed();
    let text = ledger.records().map(|record| record.write().unwrap());
    assert!(text.collect::<String>().contains("Toe a touch"));
    let (erased, _) = after(&ledger, erase(marking), &stamp(60));
    let kept = erased.marking(marking).unwrap();
    assert_eq!(kept.erased, Some(now()));
    let text = erased.records().map(|record| record.write().unwrap());
    let text: String = text.collect();
    assert!(!text.contains("Toe a touch") && !text.contains("Good shoe"));
    let check = check_seal(erased.seal_parts(kept).unwrap()).unwrap();
    assert!(check.intact);
    assert_eq!(check.personal["comment/toe"], PersonalText::Erased);
    assert_eq!(check.personal["overall"], PersonalText::Erased);
    assert_eq!(check.personal["learner"], PersonalText::Same);
    assert!(
        apply(&erased, erase(marking), &stamp(61))
            .unwrap()
            .is_empty()
    );
}

#[test]
fn a_draft_is_not_erased_and_a_sealed_one_takes_no_comment() {
    let (draft, made) = with_full_draft();
    let marking = made.marking.unwrap();
    let error = apply(&draft, erase(marking), &stamp(90));
    assert_eq!(error, Err(CommandError::EraseDraft));
    let (ledger, marking) = sealed();
    let erased = after(&ledger, erase(marking), &stamp(60)).0;
    assert!(refused(&erased, comment(marking, None, "x")).contains("was sealed on"));
}

#[test]
fn a_signature_is_kept_with_the_digest_that_it_is_for_and_with_no_other() {
    let (draft, made) = with_full_draft();
    let marking = made.marking.unwrap();
    let sealed = after(&draft, seal(marking), &stamp(50)).0;
    let digest = sealed
        .marking(marking)
        .unwrap()
        .seal
        .clone()
        .unwrap()
        .digest;
    let signed = |digest: &str| {
        let Command::Seal {
            marking, seed, at, ..
        } = seal(marking)
        else {
            unreachable!()
        };
        let signature = Some(Box::new(SignedDigest {
            digest: digest.to_owned(),
            signature: signature(),
        }));
        Command::Seal {
            marking,
            seed,
            at,
            signature,
        }
    };
    let with = after(&draft, signed(&digest), &stamp(50)).0;
    assert_eq!(with.marking(marking).unwrap().signature, Some(signature()));
    // Another tab wrote in the meantime: it is sealed, and unsigned.
    let edited = after(&draft, level(marking, "finish", "fair"), &stamp(40)).0;
    let without = after(&edited, signed(&digest), &stamp(50)).0;
    let kept = without.marking(marking).unwrap();
    assert!(kept.seal.is_some() && kept.signature.is_none());
}
