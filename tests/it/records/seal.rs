use std::collections::BTreeMap;
use std::sync::Arc;

use evenshod::command::{Command, Edit, LearnerDetails, Who};
use evenshod::records::{
    Change, Day, LearnerStatus, Ledger, Marking, OutsideNumber, PersonalText, Record, RecordKey,
    SealCheck, SealError, check_seal, sealed_document, sha256_hex, verify,
};

use super::sample::{after, heat_log, seal, stamp, start, with_full_draft};

fn sealed() -> (Ledger, Marking) {
    let (ledger, made) = with_full_draft();
    let id = made.marking.unwrap();
    let ledger = after(&ledger, seal(id), &stamp(50)).0;
    let marking = ledger.marking(id).unwrap().clone();
    (ledger, marking)
}

fn check(ledger: &Ledger, marking: &Marking) -> SealCheck {
    check_seal(ledger.seal_parts(marking).unwrap()).unwrap()
}

#[test]
fn a_sealed_marking_is_intact_and_its_document_verifies() {
    let (ledger, marking) = sealed();
    let found = check(&ledger, &marking);
    assert!(found.intact);
    let labels: Vec<_> = found.personal.keys().map(String::as_str).collect();
    assert_eq!(labels, ["comment/toe", "examiner", "learner", "overall"]);
    assert!(
        found
            .personal
            .values()
            .all(|text| *text == PersonalText::Same)
    );

    let document = sealed_document(ledger.seal_parts(&marking).unwrap()).unwrap();
    let seal = marking.seal.as_ref().unwrap();
    assert_eq!(document.digest, seal.digest);
    assert_eq!(sha256_hex(document.canonical.as_bytes()), seal.digest);
    assert_eq!(verify(&document.canonical, &seal.digest), Ok(()));
}

#[test]
fn the_document_holds_facts_and_rubric_and_no_personal_text() {
    let (ledger, marking) = sealed();
    let parts = ledger.seal_parts(&marking).unwrap();
    let text = sealed_document(parts).unwrap().canonical;
    for told in [
        "10,5",
        "20/3",
        "scale in the fuller",
        "plain-front",
        "2026-11-25",
    ] {
        assert!(text.contains(told), "{told}");
    }
    for untold in ["Ada", "Smith", "Green", "Good shoe", "touch"] {
        assert!(!text.contains(untold), "{untold}");
    }
    for salted in marking.seal.as_ref().unwrap().personal.values() {
        assert!(
            !text.contains(&salted.salt),
            "salts would let names be guessed"
        );
        assert_eq!(salted.salt.len(), 32);
    }
}

#[test]
fn salts_are_each_their_own() {
    let (_, marking) = sealed();
    let personal = marking.seal.unwrap().personal;
    let salts: BTreeMap<_, _> = personal.values().map(|text| (&text.salt, ())).collect();
    assert_eq!(salts.len(), personal.len());
}

#[test]
fn erasing_personal_text_leaves_the_marks_verifiable() {
    let (ledger, mut marking) = sealed();
    let learner = ledger.learners().next().unwrap().id;
    marking.comments.clear();
    marking.overall = None;
    let erased = ledger.with(&Change {
        puts: vec![marking.clone().into()],
        deletes: vec![RecordKey::new(evenshod::records::Kind::Learner, learner)],
        ..Change::default()
    });
    let found = check(&erased, &marking);
    assert!(found.intact, "marks stand");
    assert_eq!(found.personal["learner"], PersonalText::Erased);
    assert_eq!(found.personal["comment/toe"], PersonalText::Erased);
    assert_eq!(found.personal["overall"], PersonalText::Erased);
    assert_eq!(found.personal["examiner"], PersonalText::Same);
}

#[test]
fn every_tampering_is_seen() {
    let (ledger, marking) = sealed();
    let tampered: [fn(&mut Marking); 6] = [
        |marking| {
            drop(
                marking
                    .facts
                    .levels
                    .insert("finish".into(), "excellent".into()),
            )
        },
        |marking| {
            marking.facts.readings.get_mut("near.width").unwrap()[0]
                .text
                .push('0')
        },
        |marking| marking.facts.faults.clear(),
        |marking| marking.order += 1,
        |marking| marking.unit = evenshod::records::Unit::Inch64,
        |marking| marking.started = evenshod::records::Moment::new(0, 0),
    ];
    for tamper in tampered {
        let mut changed = marking.clone();
        tamper(&mut changed);
        assert_ne!(changed, marking);
        assert!(!check(&ledger, &changed).intact);
    }
    let mut changed = marking.clone();
    changed.comments.insert("toe".into(), "Toe short".into());
    changed.comments.insert("heel".into(), "Heel long".into());
    let found = check(&ledger, &changed);
    assert_eq!(found.personal["comment/toe"], PersonalText::Changed);
    assert_eq!(found.personal["comment/heel"], PersonalText::Added);
}

#[test]
fn a_changed_piece_sitting_or_rubric_is_seen() {
    let (ledger, marking) = sealed();
    for record in ledger.records() {
        let changed = match record {
            Record::Piece(mut piece) => {
                Arc::make_mut(&mut piece).attempt += 1;
                Record::Piece(piece)
            }
            Record::Sitting(mut sitting) => {
                Arc::make_mut(&mut sitting).kind = evenshod::records::SittingKind::Exam;
                Record::Sitting(sitting)
            }
            Record::Rubric(mut rubric) => {
                Arc::make_mut(&mut rubric).text.push('\n');
                Record::Rubric(rubric)
            }
            _ => continue,
        };
        let ledger = ledger.with(&Change {
            puts: vec![changed],
            ..Change::default()
        });
        assert!(!check(&ledger, &marking).intact);
    }
}

#[test]
fn linking_a_ticket_to_its_learner_after_sealing_leaves_the_seal_intact() {
    let who = Who::Ticket {
        ticket: "12".to_owned(),
        learner: None,
    };
    let (ledger, made) = after(&Ledger::default(), start(who), &stamp(0));
    let ledger = after(&ledger, seal(made.marking.unwrap()), &stamp(1)).0;
    let add = Command::AddLearner {
        name: "Ada Smith".to_owned(),
        given_number: None,
    };
    let (ledger, added) = after(&ledger, add, &stamp(2));
    let mut piece = ledger.piece(made.piece.unwrap()).unwrap().clone();
    piece.learner = added.learner;
    let ledger = ledger.with(&Change {
        puts: vec![piece.into()],
        ..Change::default()
    });
    let found = check(&ledger, ledger.marking(made.marking.unwrap()).unwrap());
    assert!(found.intact);
    assert_eq!(found.personal["learner"], PersonalText::Added);
}

#[test]
fn details_of_a_learner_unsettle_no_seal() {
    let (ledger, marking) = sealed();
    let learner = ledger.learners().next().unwrap();
    let before = LearnerDetails::of(learner);
    let after = LearnerDetails {
        given_number: Some("18".to_owned()),
        outside_numbers: vec![OutsideNumber {
            by: "Wexcombe Guild".to_owned(),
            number: "WG 1".to_owned(),
        }],
        employer: Some("Thornwick Forge".to_owned()),
        started: Day::new(2025, 9, 1),
        planned_end: Day::new(2028, 8, 31),
        status: LearnerStatus::Left,
        ..before.clone()
    };
    let set = |after: &LearnerDetails| Command::SetLearner {
        learner: learner.id,
        before: Box::new(before.clone()),
        after: Box::new(after.clone()),
    };
    let (changed, _) = super::sample::after(&ledger, set(&after), &stamp(90));
    assert_eq!(
        LearnerDetails::of(changed.learner(learner.id).unwrap()),
        after
    );
    assert_eq!(check(&changed, &marking), check(&ledger, &marking));
    assert_eq!(
        check(&changed, &marking).personal["learner"],
        PersonalText::Same
    );
    // The name is covered, so the check is one that can fail.
    let renamed = LearnerDetails {
        name: "Ada Jones".to_owned(),
        ..after
    };
    let (changed, _) = super::sample::after(&ledger, set(&renamed), &stamp(90));
    let found = check(&changed, &marking);
    assert!(found.intact);
    assert_eq!(found.personal["learner"], PersonalText::Changed);
}

#[test]
fn a_text_that_is_not_canonical_or_not_the_sealed_one_does_not_verify() {
    let text = "{\"a\":1,\"b\":\"x\"}";
    let digest = sha256_hex(text.as_bytes());
    assert_eq!(verify(text, &digest), Ok(()));
    let spaced = "{\"a\": 1,\"b\":\"x\"}";
    let found = verify(spaced, &sha256_hex(spaced.as_bytes()));
    assert!(matches!(found, Err(SealError::NotCanonical { .. })));
    let found = verify("{\"a\":2,\"b\":\"x\"}", &digest);
    assert!(matches!(found, Err(SealError::Differs { .. })));
    assert!(verify("", &digest).is_err());
}

#[test]
fn a_draft_has_no_seal_to_check() {
    let (ledger, made) = with_full_draft();
    let marking = ledger.marking(made.marking.unwrap()).unwrap();
    let parts = ledger.seal_parts(marking).unwrap();
    assert_eq!(check_seal(parts), Err(SealError::NotSealed));
    assert_eq!(sealed_document(parts), Err(SealError::NotSealed));
}

#[test]
fn a_heat_log_stands_under_the_seal() {
    let (mut ledger, made) = with_full_draft();
    let id = made.marking.unwrap();
    let taps = heat_log().taps;
    // Nothing may be tapped after the end, which comes last but one.
    let taps = taps.into_iter().rev().skip(1).collect::<Vec<_>>();
    for (tap, seconds) in taps.into_iter().rev().zip(60..) {
        let command = Command::edit(id, Edit::Tap { tap });
        ledger = after(&ledger, command, &stamp(seconds)).0;
    }
    let ledger = after(&ledger, seal(id), &stamp(90)).0;
    let marking = ledger.marking(id).unwrap();
    assert!(check(&ledger, marking).intact);
    let document = sealed_document(ledger.seal_parts(marking).unwrap()).unwrap();
    assert_eq!(verify(&document.canonical, &document.digest), Ok(()));
    let mut other = marking.clone();
    other.facts.heat_log.taps.pop();
    assert!(!check(&ledger, &other).intact);
}
