use std::collections::BTreeSet;

use evenshod::command::{
    Command, CommandError, IssueTickets, Made, TicketAsked, Who, apply, removal,
};
use evenshod::records::{Ended, LearnerId, Ledger, Piece, PieceId, Role, SittingKind, Stamp, Unit};

use crate::records::sample::{
    after, day, device, level, named, now, rubric, seal, stamp, start, with_draft,
};

fn asked(ticket: &str, learner: Option<&str>) -> TicketAsked {
    TicketAsked {
        ticket: ticket.to_owned(),
        learner: learner.map(str::to_owned),
    }
}

fn tickets(tickets: &[TicketAsked]) -> IssueTickets {
    IssueTickets {
        tickets: tickets.to_vec(),
        hidden: true,
        rubric: rubric("1"),
        sitting: SittingKind::Exam,
        day: day(),
        examiner: "Wm. Green".to_owned(),
        unit: Unit::Millimetre,
        at: now(),
    }
}

fn issue(what: IssueTickets) -> Command {
    Command::IssueTickets(Box::new(what))
}

fn link(piece: PieceId, learner: Option<LearnerId>) -> Command {
    Command::LinkTicket { piece, learner }
}

fn numbers(count: u32) -> Vec<TicketAsked> {
    let all = (1..=count).map(|number| asked(&number.to_string(), None));
    all.collect()
}

fn piece<'a>(ledger: &'a Ledger, ticket: &str) -> &'a Piece {
    let mut all = ledger.pieces();
    all.find(|piece| piece.ticket.as_deref() == Some(ticket))
        .unwrap()
}

#[track_caller]
fn refused(ledger: &Ledger, command: Command) -> CommandError {
    apply(ledger, command, &stamp(90)).unwrap_err()
}

#[test]
fn each_ticket_has_a_piece_and_an_open_first_marking() {
    let command = issue(tickets(&numbers(12)));
    let (ledger, made) = after(&Ledger::default(), command.clone(), &stamp(0));
    assert_eq!(
        (ledger.pieces().count(), ledger.markings().count()),
        (12, 12)
    );
    assert_eq!(
        (ledger.sittings().count(), ledger.rubrics().count()),
        (1, 1)
    );
    let orders: BTreeSet<u32> = ledger.markings().map(|marking| marking.order).collect();
    assert_eq!(orders, (1..=12).collect());
    for marking in ledger.markings() {
        assert_eq!(marking.role, Role::First);
        assert!(ledger.piece(marking.piece).unwrap().hidden_until_sealed);
    }
    assert_eq!(made.piece, Some(piece(&ledger, "1").id));
    let again = apply(&ledger, command, &stamp(0)).unwrap();
    assert!(again.is_empty(), "a repeat is harmless");
    assert_eq!(again.made, made);
    let later = Stamp::next(ledger.latest().unwrap(), stamp(0).time, device(1));
    assert!(later > *ledger.latest().unwrap());
    assert!(removal(&ledger, &device(1)).stays.is_empty());
    assert!(
        ledger
            .records()
            .all(|record| record.was_made_by(&device(1)))
    );
}

#[test]
fn names_are_found_or_added_and_hidden_where_asked() {
    let (ledger, made) = with_draft();
    let list = [
        asked(" 7 ", Some("ada  smith")),
        asked("8", Some("Bea Coe")),
        asked("9", Some("bea coe")),
        asked("10", None),
    ];
    let open = IssueTickets {
        hidden: false,
        ..tickets(&list)
    };
    let change = apply(&ledger, issue(open), &stamp(1)).unwrap();
    let here = |key| ledger.get(key).is_some();
    assert!(change.relies_on.iter().all(here), "{:?}", change.relies_on);
    let ledger = ledger.with(&change);
    let ada = piece(&ledger, "7");
    assert_eq!((ada.learner, ada.attempt), (made.learner, 2));
    let bea = piece(&ledger, "8").learner;
    assert_eq!(ledger.learner(bea.unwrap()).unwrap().name, "Bea Coe");
    assert_eq!(piece(&ledger, "9").learner, bea);
    assert_eq!(
        (piece(&ledger, "8").attempt, piece(&ledger, "9").attempt),
        (1, 2)
    );
    assert_eq!(piece(&ledger, "10").learner, None);
    assert!(!piece(&ledger, "7").hidden_until_sealed);
    assert_eq!(ledger.learners().count(), 2);
}

#[test]
fn a_ticket_that_is_there_refuses_all_of_them() {
    let (ledger, _) = after(&Ledger::default(), issue(tickets(&numbers(3))), &stamp(0));
    let more = issue(tickets(&[asked("4", None), asked("3", None)]));
    let taken = refused(&ledger, more.clone());
    assert_eq!(
        taken,
        CommandError::TicketTaken {
            ticket: "3".to_owned()
        }
    );
    let broken = Command::SetEnded {
        piece: piece(&ledger, "3").id,
        ended: Some(Ended::BrokenOrRestarted),
    };
    let (ledger, _) = after(&ledger, broken, &stamp(1));
    let (ledger, _) = after(&ledger, more, &stamp(2));
    assert_eq!(ledger.pieces().count(), 5);
    let other_day = IssueTickets {
        sitting: SittingKind::Mock,
        ..tickets(&numbers(3))
    };
    assert_eq!(
        after(&ledger, issue(other_day), &stamp(3))
            .0
            .pieces()
            .count(),
        8
    );
}

#[test]
fn what_is_no_list_of_tickets_is_refused() {
    let none = Ledger::default();
    for (list, says) in [
        (vec![], "there is no ticket in the list"),
        (numbers(61), "at most 60 tickets"),
        (vec![asked("  ", None)], "a ticket has no name"),
        (
            vec![asked("5", None), asked(" 5", None)],
            "ticket 5 stands twice",
        ),
        (vec![asked("5", Some(" "))], "the learner has no name"),
    ] {
        let error = refused(&none, issue(tickets(&list))).to_string();
        assert!(error.contains(says), "{error}");
    }
}

#[test]
fn a_ticket_is_linked_changed_and_taken_off_until_it_is_sealed() {
    let (ledger, made) = with_draft();
    let (ledger, first) = after(&ledger, issue(tickets(&numbers(2))), &stamp(1));
    let (id, ada) = (first.piece.unwrap(), made.learner.unwrap());
    let (ledger, _) = after(&ledger, link(id, Some(ada)), &stamp(2));
    let linked = ledger.piece(id).unwrap();
    assert_eq!((linked.learner, linked.attempt), (Some(ada), 2));
    assert!(linked.hidden_until_sealed);
    assert!(
        apply(&ledger, link(id, Some(ada)), &stamp(3))
            .unwrap()
            .is_empty()
    );
    let (without, _) = after(&ledger, link(id, None), &stamp(3));
    let off = without.piece(id).unwrap();
    assert_eq!((off.learner, off.attempt), (None, 1));
    let marking = first.marking.unwrap();
    let (ledger, _) = after(&ledger, level(marking, "finish", "good"), &stamp(4));
    let (ledger, _) = after(&ledger, seal(marking), &stamp(5));
    let sealed = refused(&ledger, link(id, None));
    assert!(matches!(sealed, CommandError::Sealed { .. }), "{sealed}");
    let named_piece = made.piece.unwrap();
    assert_eq!(
        refused(&ledger, link(named_piece, Some(ada))),
        CommandError::WithoutTicket
    );
    let nobody = refused(&ledger, link(piece(&ledger, "2").id, Some(LearnerId::MOST)));
    assert!(matches!(nobody, CommandError::Missing { .. }), "{nobody}");
}

#[test]
fn a_ticket_by_itself_stays_hidden() {
    let who = Who::Ticket {
        ticket: "17".to_owned(),
        learner: None,
    };
    let (ledger, Made { piece, .. }) = after(&Ledger::default(), start(who), &stamp(0));
    assert!(ledger.piece(piece.unwrap()).unwrap().hidden_until_sealed);
    let (ledger, made) = after(&ledger, start(named("Cy Dale")), &stamp(1));
    assert!(
        !ledger
            .piece(made.piece.unwrap())
            .unwrap()
            .hidden_until_sealed
    );
}
