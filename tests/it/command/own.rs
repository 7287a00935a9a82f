//! A maker's own marking, alone or begun beside the examiner's.

use evenshod::command::{
    Command, CommandError, Made, MarkAgain, OwnMarking, RubricText, StartPiece, Who, apply, removal,
};
use evenshod::demo;
use evenshod::records::{Kind, Ledger, Marking, Record, RecordKey, Role, SittingKind, Unit};
use proptest::prelude::*;

use crate::records::sample::{after, device, named, now, rubric, seal, stamp, start_piece};

fn both(who: Who, own: Option<RubricText>) -> Command {
    Command::StartPiece(Box::new(StartPiece {
        own: Some(OwnMarking { rubric: own }),
        ..start_piece(who)
    }))
}

fn markings(ledger: &Ledger, made: &Made) -> (Marking, Marking) {
    let of = |role: Role| {
        let mut all = ledger.markings_of(made.piece.unwrap());
        all.find(|marking| marking.role == role).unwrap().clone()
    };
    (of(Role::First), of(Role::Own))
}

fn name_of<'a>(ledger: &'a Ledger, marking: &Marking) -> &'a str {
    &ledger.examiner(marking.examiner).unwrap().name
}

fn ticket(number: &str) -> Who {
    Who::Ticket {
        ticket: number.to_owned(),
        learner: None,
    }
}

#[test]
fn both_markings_begin_in_one_act() {
    let command = both(named("Ada Smith"), Some(rubric("9")));
    let (ledger, made) = after(&Ledger::default(), command.clone(), &stamp(0));
    let (first, own) = markings(&ledger, &made);
    assert_eq!(made.marking, Some(first.id));
    assert_eq!(ledger.drafts().count(), 2);
    assert_eq!(name_of(&ledger, &first), "Wm. Green");
    assert_eq!(name_of(&ledger, &own), "Ada Smith");
    assert_eq!(first.rubric, rubric("1").digest);
    assert_eq!(own.rubric, rubric("9").digest);
    let piece = ledger.piece(made.piece.unwrap()).unwrap();
    assert_eq!(piece.rubric, rubric("1").digest);
    assert_eq!(ledger.rubrics().count(), 2, "both texts are kept");
    // Applied again it finds both.
    let change = apply(&ledger, command, &stamp(0)).unwrap();
    assert!(change.is_empty());
    assert_eq!(change.made, made);
}

#[test]
fn the_same_rubric_is_kept_once() {
    for own in [None, Some(rubric("1"))] {
        let (ledger, made) = after(&Ledger::default(), both(named("Ada Smith"), own), &stamp(0));
        let (first, own) = markings(&ledger, &made);
        assert_eq!(first.rubric, own.rubric);
        assert_eq!(ledger.rubrics().count(), 1);
    }
}

#[test]
fn one_of_the_two_may_go_and_the_other_stays() {
    let command = both(named("Ada Smith"), None);
    let (ledger, made) = after(&Ledger::default(), command.clone(), &stamp(0));
    let (first, own) = markings(&ledger, &made);
    for (goes, stays) in [(first.id, own.id), (own.id, first.id)] {
        let (left, _) = after(&ledger, Command::DeleteDraft { marking: goes }, &stamp(1));
        assert!(left.piece(made.piece.unwrap()).is_some());
        assert_eq!(left.drafts().map(|one| one.id).collect::<Vec<_>>(), [stays]);
        // The first one does not come back with the command that began it.
        assert!(apply(&left, command.clone(), &stamp(0)).unwrap().is_empty());
    }
}

#[test]
fn the_maker_of_a_ticket_is_called_by_it_where_nobody_knows_more() {
    let (ledger, made) = after(&Ledger::default(), both(ticket("14"), None), &stamp(0));
    let (_, own) = markings(&ledger, &made);
    assert_eq!(name_of(&ledger, &own), "Maker of ticket 14");
    let (ledger, ada) = after(&ledger, both(named("Ada Smith"), None), &stamp(1));
    let known = Who::Ticket {
        ticket: "15".to_owned(),
        learner: ada.learner,
    };
    let (ledger, made) = after(&ledger, both(known, None), &stamp(2));
    let (_, own) = markings(&ledger, &made);
    assert_eq!(name_of(&ledger, &own), "Ada Smith");
    assert_eq!(own.order, 2, "her second of the sitting");
}

#[test]
fn a_self_check_asks_for_no_examiner() {
    let what = StartPiece {
        role: Role::Own,
        sitting: SittingKind::SelfCheck,
        examiner: "  ".to_owned(),
        ..start_piece(named("Ada Smith"))
    };
    let (ledger, made) = after(
        &Ledger::default(),
        Command::StartPiece(Box::new(what.clone())),
        &stamp(0),
    );
    let own = ledger.marking(made.marking.unwrap()).unwrap();
    assert_eq!((own.role, name_of(&ledger, own)), (Role::Own, "Ada Smith"));
    // An examiner's marking still needs a name.
    let nameless = StartPiece {
        role: Role::First,
        ..what.clone()
    };
    let error = apply(&ledger, Command::StartPiece(Box::new(nameless)), &stamp(1));
    assert!(matches!(error, Err(CommandError::NoName { .. })));
    // Two own markings there are not.
    let twice = StartPiece {
        own: Some(OwnMarking::default()),
        ..what
    };
    let error = apply(&ledger, Command::StartPiece(Box::new(twice)), &stamp(1));
    assert!(matches!(
        error,
        Err(CommandError::RoleRefused {
            role: Role::Own,
            ..
        })
    ));
}

#[test]
fn one_person_in_both_roles_is_one_record_in_order() {
    let what = StartPiece {
        examiner: "ada  smith".to_owned(),
        own: Some(OwnMarking::default()),
        ..start_piece(named("Ada Smith"))
    };
    let command = Command::StartPiece(Box::new(what));
    let (ledger, made) = after(&Ledger::default(), command, &stamp(0));
    let (first, own) = markings(&ledger, &made);
    assert_eq!(first.examiner, own.examiner);
    assert_eq!((first.order, own.order), (1, 2));
    assert_eq!(ledger.examiners().count(), 1);
}

fn again(made: &Made, role: Role, rubric: Option<RubricText>) -> Command {
    Command::MarkAgain(Box::new(MarkAgain {
        piece: made.piece.unwrap(),
        examiner: if role == Role::Own {
            String::new()
        } else {
            "Jo Reed".to_owned()
        },
        rubric,
        unit: Unit::Millimetre,
        role,
        at: now(),
    }))
}

#[test]
fn only_the_maker_marks_by_another_rubric() {
    let start = Command::StartPiece(Box::new(start_piece(named("Ada Smith"))));
    let (ledger, made) = after(&Ledger::default(), start, &stamp(0));
    let (marked, own) = after(
        &ledger,
        again(&made, Role::Own, Some(rubric("9"))),
        &stamp(1),
    );
    let own = marked.marking(own.marking.unwrap()).unwrap();
    assert_eq!(own.rubric, rubric("9").digest);
    assert_eq!(name_of(&marked, own), "Ada Smith");
    assert!(marked.rubric(&own.rubric).is_some(), "its text is kept");
    let (marked, _) = after(&marked, seal(own.id), &stamp(2));
    assert_eq!(marked.drafts().count(), 1);
    let error = apply(
        &ledger,
        again(&made, Role::Second, Some(rubric("9"))),
        &stamp(1),
    );
    let Err(CommandError::RoleRefused { role, why }) = error else {
        panic!("{error:?}");
    };
    assert_eq!(role, Role::Second);
    assert!(why.contains("made to"), "{why}");
    // The piece's own rubric is no other one.
    let (_, second) = after(
        &ledger,
        again(&made, Role::Second, Some(rubric("1"))),
        &stamp(1),
    );
    assert!(second.marking.is_some());
    let mut other = rubric("1");
    other.digest = rubric("9").digest;
    let (ledger, _) = after(
        &ledger,
        again(&made, Role::Own, Some(rubric("9"))),
        &stamp(1),
    );
    let fresh = Command::StartPiece(Box::new(StartPiece {
        own: Some(OwnMarking {
            rubric: Some(other),
        }),
        ..start_piece(named("Bea Long"))
    }));
    assert!(matches!(
        apply(&ledger, fresh, &stamp(3)),
        Err(CommandError::RubricDiffers { .. })
    ));
}

#[test]
fn what_it_relies_on_is_named() {
    let start = Command::StartPiece(Box::new(start_piece(named("Ada Smith"))));
    let (ledger, made) = after(&Ledger::default(), start, &stamp(0));
    let own = again(&made, Role::Own, Some(rubric("9")));
    let (ledger, marked) = after(&ledger, own, &stamp(1));
    let drop = Command::DeleteDraft {
        marking: marked.marking.unwrap(),
    };
    let (ledger, _) = after(&ledger, drop, &stamp(2));
    let change = apply(
        &ledger,
        again(&made, Role::Own, Some(rubric("9"))),
        &stamp(3),
    )
    .unwrap();
    let key = RecordKey::new(Kind::Rubric, rubric("9").digest);
    assert!(change.relies_on.contains(&key), "the kept text may not go");
}

proptest! {
    /// Whoever makes both is known by every record of the command, whatever is there.
    #[test]
    fn every_record_of_the_command_tells_its_device(
        seconds in 0..1_000_000_u64,
        known in any::<bool>(),
        has_rubric in any::<bool>(),
    ) {
        let ledger = if known {
            after(&Ledger::default(), both(named("Ada Smith"), None), &stamp(0)).0
        } else {
            Ledger::default()
        };
        let command = both(named("Bea Long"), has_rubric.then(|| rubric("9")));
        let change = apply(&ledger, command, &stamp(seconds + 1)).unwrap();
        let made: Vec<Record> = change.puts.clone();
        prop_assert!(made.iter().all(|record| record.was_made_by(&device(1))));
        prop_assert!(!made.iter().any(|record| record.was_made_by(&device(2))));
        let ids: std::collections::BTreeSet<_> = made.iter().map(Record::key).collect();
        prop_assert_eq!(ids.len(), made.len());
        let all = ledger.with(&change);
        prop_assert!(removal(&all, &device(1)).stays.is_empty());
        prop_assert_eq!(removal(&all, &device(1)).goes.len(), all.records().count());
    }
}

/// Were the demo to begin both in one act, its records would be known as invented.
#[test]
fn the_demo_is_told_by_the_new_ids_too() {
    let mut stamp = stamp(0);
    stamp.device = demo::device();
    let (ledger, _) = after(&Ledger::default(), both(named("Ada Smith"), None), &stamp);
    assert_eq!(ledger.records().count(), 8);
    assert!(ledger.records().all(|record| demo::is_invented(&record)));
    use demo::Invented as _;
    assert!(ledger.markings().all(|marking| marking.id.is_invented()));
    assert!(ledger.examiners().all(|one| one.id.is_invented()));
    let (own, _) = after(
        &Ledger::default(),
        both(named("Ada Smith"), None),
        &crate::records::sample::stamp(0),
    );
    assert!(own.markings().all(|marking| !marking.id.is_invented()));
}
