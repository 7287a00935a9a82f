use evenshod::command::{Command, CommandError, StartPiece, Who};
use evenshod::present::{Offer, StartErrors, StartForm, offers};
use evenshod::records::{Ledger, Role, SittingKind, Unit};
use evenshod::rubric::shipped;

use crate::records::sample::{day, now, with_draft};

fn fresh(ledger: &Ledger) -> (StartForm, Vec<Offer>) {
    let offers = offers();
    let form = StartForm::fresh(ledger, &offers, day(), "Wm. Green".to_owned(), "in32");
    (form, offers)
}

#[track_caller]
fn read(form: &StartForm, offers: &[Offer]) -> StartPiece {
    match form.read(offers, now()) {
        Ok(Command::StartPiece(start)) => *start,
        other => panic!("not a start: {other:?}"),
    }
}

#[track_caller]
fn errors(form: &StartForm, offers: &[Offer]) -> StartErrors {
    *form.read(offers, now()).unwrap_err()
}

#[test]
fn rubrics_that_ship_are_offered_with_what_they_come_to() {
    let offers = offers();
    assert_eq!(offers.len(), shipped().len());
    for offer in offers {
        assert!(offer.about.ends_with("to pass"), "{}", offer.about);
        assert_eq!(offer.key().len(), 64);
    }
}

#[test]
fn an_empty_ledger_asks_for_a_new_learner() {
    let (form, offers) = fresh(&Ledger::default());
    assert_eq!(form.who, "new");
    let missing = errors(&form, &offers);
    assert_eq!(missing.name.as_deref(), Some("Give the learner’s name."));
    assert_eq!(missing.first_field(), Some("name"));
    let start = read(
        &StartForm {
            name: "Ada Smith".to_owned(),
            ..form
        },
        &offers,
    );
    assert_eq!(start.who, Who::Name("Ada Smith".to_owned()));
    assert_eq!(start.unit, Unit::Inch32);
    assert_eq!(start.day, day());
    assert_eq!(start.rubric, offers[0].rubric);
    assert_eq!(
        (start.sitting, start.role),
        (SittingKind::Practice, Role::First)
    );
}

#[test]
fn a_learner_from_the_list_goes_by_id() {
    let (ledger, made) = with_draft();
    let (form, offers) = fresh(&ledger);
    assert_eq!(form.who, "listed");
    assert!(errors(&form, &offers).learner.is_some());
    let learner = made.learner.unwrap();
    let form = StartForm {
        learner: learner.to_string(),
        sitting: "self-check".to_owned(),
        ..form
    };
    let start = read(&form, &offers);
    assert_eq!(start.who, Who::Learner(learner));
    assert_eq!(start.role, Role::Own);
}

#[test]
fn a_ticket_may_name_its_learner_or_nobody() {
    let (ledger, made) = with_draft();
    let (form, offers) = fresh(&ledger);
    let form = StartForm {
        who: "ticket".to_owned(),
        ..form
    };
    assert_eq!(errors(&form, &offers).first_field(), Some("ticket"));
    let form = StartForm {
        ticket: "14".to_owned(),
        ..form
    };
    let ticket = |learner| Who::Ticket {
        ticket: "14".to_owned(),
        learner,
    };
    assert_eq!(read(&form, &offers).who, ticket(None));
    let form = StartForm {
        ticket_learner: made.learner.unwrap().to_string(),
        ..form
    };
    assert_eq!(read(&form, &offers).who, ticket(made.learner));
}

#[test]
fn every_fault_is_told_beside_its_field() {
    let (form, offers) = fresh(&Ledger::default());
    let form = StartForm {
        rubric: "nothing".to_owned(),
        sitting: String::new(),
        day: "25.11.2026".to_owned(),
        examiner: "  ".to_owned(),
        ..form
    };
    let found = errors(&form, &offers);
    let all = [
        &found.name,
        &found.rubric,
        &found.sitting,
        &found.day,
        &found.examiner,
    ];
    assert!(all.into_iter().all(Option::is_some), "{found:?}");
}

#[test]
fn a_slip_in_the_year_is_noticed() {
    let (form, offers) = fresh(&Ledger::default());
    let on = |day: &str| StartForm {
        name: "Ada Smith".to_owned(),
        day: day.to_owned(),
        ..form.clone()
    };
    assert!(form.read(&offers, now()).is_err());
    for fine in ["2026-11-25", "2026-12-26", "1950-01-01"] {
        assert!(on(fine).read(&offers, now()).is_ok(), "{fine}");
    }
    for slip in ["2026-12-27", "2062-11-25", "1949-12-31", "2026-02-30", ""] {
        assert!(errors(&on(slip), &offers).day.is_some(), "{slip}");
    }
}

#[test]
fn a_refused_command_is_told_where_it_can_be_mended() {
    let (form, _) = fresh(&Ledger::default());
    let taken = CommandError::TicketTaken {
        ticket: "14".to_owned(),
    };
    let errors = StartErrors::refused(&form, &taken);
    assert!(
        errors
            .ticket
            .unwrap()
            .starts_with("Ticket 14 is in this sitting")
    );
    let many = CommandError::NameOfMany {
        name: "Ada".to_owned(),
        count: 2,
    };
    assert!(StartErrors::refused(&form, &many).name.is_some());
}

#[test]
fn two_examiners_are_named_where_two_mark() {
    let (ledger, _) = with_draft();
    let (form, offers) = fresh(&ledger);
    let form = StartForm {
        who: "new".to_owned(),
        name: "Bea Long".to_owned(),
        marked_by: "two".to_owned(),
        ..form
    };
    let missing = errors(&form, &offers);
    assert_eq!(missing.first_field(), Some("second-examiner"));
    let form = StartForm {
        second_examiner: "Jo Reed".to_owned(),
        ..form
    };
    assert_eq!(read(&form, &offers).second.as_deref(), Some("Jo Reed"));
    let alone = StartForm {
        marked_by: "examiner".to_owned(),
        ..form.clone()
    };
    assert_eq!(read(&alone, &offers).second, None);
    let refused = CommandError::RoleRefused {
        role: Role::Second,
        why: "name another examiner",
    };
    let refused = StartErrors::refused(&form, &refused);
    assert!(refused.second.is_some() && refused.other.is_none());
}
