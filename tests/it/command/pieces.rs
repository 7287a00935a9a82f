use evenshod::command::{Command, CommandError, StartPiece, Who, apply};
use evenshod::records::{Ended, Kind, LearnerId, Ledger, RecordKey, SittingKind};

use crate::records::sample::{
    after, level, named, rename, rubric, seal, stamp, stamp_of, start, start_piece, with_draft,
};

fn started(ledger: &Ledger, seconds: u64, what: StartPiece) -> (Ledger, evenshod::command::Made) {
    after(ledger, Command::StartPiece(Box::new(what)), &stamp(seconds))
}

fn ticket(number: &str, learner: Option<LearnerId>) -> Who {
    Who::Ticket {
        ticket: number.to_owned(),
        learner,
    }
}

#[test]
fn the_first_piece_makes_all_that_it_needs() {
    let (ledger, made) = with_draft();
    let marking = ledger.marking(made.marking.unwrap()).unwrap();
    let piece = ledger.piece(made.piece.unwrap()).unwrap();
    assert_eq!((piece.attempt, marking.order, piece.ended), (1, 1, None));
    assert_eq!(marking.piece, piece.id);
    assert_eq!(
        ledger.rubric(&marking.rubric).unwrap().text,
        rubric("1").text
    );
    assert_eq!(ledger.examiner(marking.examiner).unwrap().name, "Wm. Green");
    assert_eq!(
        ledger.learner(made.learner.unwrap()).unwrap().name,
        "Ada Smith"
    );
    assert_eq!(
        ledger.sitting(piece.sitting).unwrap().kind,
        SittingKind::Practice
    );
    assert_eq!(ledger.records().count(), 6);
}

#[test]
fn the_next_piece_finds_what_is_there_and_counts_on() {
    let (ledger, first) = with_draft();
    let who = Who::Learner(first.learner.unwrap());
    let (ledger, second) = started(&ledger, 1, start_piece(who));
    assert_eq!(
        (second.learner, second.examiner),
        (first.learner, first.examiner)
    );
    assert_eq!(
        ledger.records().count(),
        8,
        "one piece and one marking more"
    );
    assert_eq!(ledger.piece(second.piece.unwrap()).unwrap().attempt, 2);
    assert_eq!(ledger.marking(second.marking.unwrap()).unwrap().order, 2);

    let newer = StartPiece {
        rubric: rubric("2"),
        sitting: SittingKind::Mock,
        examiner: "Another".to_owned(),
        ..start_piece(named("ada  smith"))
    };
    let (ledger, third) = started(&ledger, 2, newer);
    assert_eq!(third.learner, first.learner);
    assert_eq!(ledger.rubrics().count(), 2);
    let piece = ledger.piece(third.piece.unwrap()).unwrap();
    assert_eq!(
        piece.attempt, 3,
        "a new version of one rubric is no new rubric"
    );
    assert_eq!(ledger.marking(third.marking.unwrap()).unwrap().order, 1);
}

#[test]
fn an_attempt_number_is_not_given_out_twice() {
    let (ledger, first) = with_draft();
    let (ledger, second) = started(&ledger, 1, start_piece(named("Ada Smith")));
    let marking = first.marking.unwrap();
    let (ledger, _) = after(&ledger, Command::DeleteDraft { marking }, &stamp(2));
    let (ledger, third) = started(&ledger, 3, start_piece(named("Ada Smith")));
    let attempt = |id| ledger.piece(id).unwrap().attempt;
    assert_eq!(attempt(second.piece.unwrap()), 2);
    assert_eq!(attempt(third.piece.unwrap()), 3);
}

#[test]
fn a_ticket_hides_its_learner_and_is_one_of_its_sitting() {
    let (ledger, made) = with_draft();
    let (ledger, ticketed) = started(&ledger, 1, start_piece(ticket("12", made.learner)));
    let piece = ledger.piece(ticketed.piece.unwrap()).unwrap();
    assert!(piece.hidden_until_sealed);
    assert_eq!(piece.ticket.as_deref(), Some("12"));
    assert_eq!((piece.learner, piece.attempt), (made.learner, 2));

    let error = apply(&ledger, start(ticket(" 12", None)), &stamp(2)).unwrap_err();
    assert!(
        error
            .to_string()
            .contains("ticket 12 is in this sitting already")
    );
    let other = StartPiece {
        sitting: SittingKind::Mock,
        ..start_piece(ticket("12", None))
    };
    let (ledger, unlinked) = started(&ledger, 2, other);
    assert_eq!(ledger.piece(unlinked.piece.unwrap()).unwrap().learner, None);

    let restarted = Command::SetEnded {
        piece: ticketed.piece.unwrap(),
        ended: Some(Ended::BrokenOrRestarted),
    };
    let (ledger, _) = after(&ledger, restarted, &stamp(3));
    started(&ledger, 4, start_piece(ticket("12", made.learner)));
}

#[test]
fn who_is_unknown_or_not_one_person_is_refused() {
    let (ledger, _) = with_draft();
    let nobody = LearnerId::made_by(&stamp(99), 0);
    for who in [Who::Learner(nobody), ticket("1", Some(nobody))] {
        let refused = apply(&ledger, start(who), &stamp(1));
        assert!(matches!(refused, Err(CommandError::Missing { .. })));
    }
    for who in [named(" "), ticket(" ", None)] {
        let refused = apply(&ledger, start(who), &stamp(1));
        assert!(matches!(refused, Err(CommandError::NoName { .. })));
    }
    let add = Command::AddLearner {
        name: "Ada Smith".to_owned(),
        given_number: Some("2".to_owned()),
    };
    let (ledger, _) = after(&ledger, add, &stamp(1));
    let refused = apply(&ledger, start(named("Ada Smith")), &stamp(2));
    assert!(matches!(
        refused,
        Err(CommandError::NameOfMany { count: 2, .. })
    ));
}

#[test]
fn one_person_added_by_two_tabs_at_once_is_still_one_by_name() {
    let (one, made) = with_draft();
    let later = stamp_of(2, 1);
    let (two, _) = after(&Ledger::default(), start(named("Ada Smith")), &later);
    let both = Ledger::of(two.records().chain(one.records()));
    assert_eq!(both.learners().count(), 2);
    let (_, next) = after(&both, start(named("Ada Smith")), &stamp(2));
    assert_eq!(next.learner, made.learner, "the earliest");
}

#[test]
fn another_text_under_a_known_digest_is_refused() {
    let (ledger, _) = with_draft();
    let mut what = start_piece(named("Ada Smith"));
    what.rubric.text.push('#');
    let refused = apply(&ledger, Command::StartPiece(Box::new(what)), &stamp(1));
    assert!(matches!(refused, Err(CommandError::RubricDiffers { .. })));
}

#[test]
fn starting_again_with_one_stamp_makes_nothing_new() {
    let (ledger, made) = with_draft();
    let (ledger, _) = after(&ledger, level(made.marking.unwrap(), "a", "b"), &stamp(1));
    let again = apply(&ledger, start(named("Ada Smith")), &stamp(0)).unwrap();
    assert!(again.is_empty());
    assert_eq!(again.made, made);
}

#[test]
fn starting_again_overwrites_nothing_that_another_tab_went_on_from() {
    let (ledger, made) = with_draft();
    let (learner, marking) = (made.learner.unwrap(), made.marking.unwrap());
    let rename = rename(&ledger, learner, "Ada Jones");
    let (ledger, _) = after(&ledger, rename, &stamp(1));
    let (ledger, _) = after(&ledger, Command::DeleteDraft { marking }, &stamp(2));
    let (ledger, again) = after(&ledger, start(named("Ada Smith")), &stamp(0));
    assert_eq!(again, made);
    assert_eq!(ledger.learner(learner).unwrap().name, "Ada Jones");
}

#[test]
fn how_a_piece_ended_is_set_until_a_marking_of_it_is_sealed() {
    let (ledger, made) = with_draft();
    let (piece, marking) = (made.piece.unwrap(), made.marking.unwrap());
    let end = |ended| Command::SetEnded { piece, ended };
    let change = apply(&ledger, end(Some(Ended::Withdrawn)), &stamp(1)).unwrap();
    assert_eq!(change.relies_on, [RecordKey::new(Kind::Marking, marking)]);
    let ledger = ledger.with(&change);
    assert_eq!(ledger.piece(piece).unwrap().ended, Some(Ended::Withdrawn));
    let (ledger, _) = after(&ledger, end(None), &stamp(2));
    assert_eq!(ledger.piece(piece).unwrap().ended, None);

    let (ledger, _) = after(&ledger, seal(marking), &stamp(3));
    let refused = apply(&ledger, end(Some(Ended::Finished)), &stamp(4));
    assert!(matches!(refused, Err(CommandError::Sealed { .. })));
}

#[test]
fn deleting_a_draft_takes_its_piece_where_nothing_else_hangs_on_it() {
    let (ledger, made) = with_draft();
    let (piece, marking) = (made.piece.unwrap(), made.marking.unwrap());
    let delete = Command::DeleteDraft { marking };
    let (gone, _) = after(&ledger, delete.clone(), &stamp(1));
    assert!(gone.marking(marking).is_none() && gone.piece(piece).is_none());

    // A second marking of the piece keeps it.
    let mut second = ledger.marking(marking).unwrap().clone();
    second.id = evenshod::records::MarkingId::made_by(&stamp(5), 4);
    let ledger = ledger.with(&evenshod::command::Change {
        puts: vec![second.into()],
        ..Default::default()
    });
    let (gone, _) = after(&ledger, delete.clone(), &stamp(6));
    assert!(gone.marking(marking).is_none() && gone.piece(piece).is_some());

    let (sealed, _) = after(&ledger, seal(marking), &stamp(6));
    let refused = apply(&sealed, delete, &stamp(7));
    assert!(matches!(refused, Err(CommandError::Sealed { .. })));
}
