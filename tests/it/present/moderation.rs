//! The page that says whether examiners mark alike.

use std::sync::Arc;

use evenshod::job::{Fault, Job, State};
use evenshod::present::{AgreementForm, Sure, agreement_choices, agreement_job, agreement_shown};
use evenshod::records::Ledger;
use evenshod::worker::perform;

use crate::moderation::sample::{School, five};

fn first(ledger: &Ledger) -> AgreementForm {
    AgreementForm::first(&agreement_choices(ledger)).unwrap()
}

#[test]
fn nothing_is_offered_before_two_marked_a_piece() {
    assert!(agreement_choices(&Ledger::default()).is_empty());
    assert_eq!(AgreementForm::first(&[]), None);
    let choices = agreement_choices(&five().ledger);
    let [(_, words)] = &choices[..] else {
        panic!("{choices:?}");
    };
    let expect = "Shoe for several examiners, version 1: 5 pieces marked by two";
    assert_eq!(words, expect);
}

#[test]
fn what_is_typed_is_read_or_told() {
    let form = first(&five().ledger);
    assert!(form.read().is_ok());
    let wrong = AgreementForm {
        from: "2026-12-01".to_owned(),
        to: "2026-11-01".to_owned(),
        examiners: "one".to_owned(),
        pieces: "0".to_owned(),
        each: "1".to_owned(),
        ..form.clone()
    };
    let errors = wrong.read().unwrap_err();
    assert_eq!(errors.from, None);
    assert_eq!(
        errors.to.as_deref(),
        Some("The last day lies before the first one.")
    );
    let numbers = [errors.examiners, errors.pieces, errors.each];
    assert_eq!(
        numbers.map(Option::unwrap),
        [
            "Write a whole number from 2 to 20.",
            "Write a whole number from 1 to 60.",
            "Write a whole number from 2 to 20."
        ]
    );
    let too_many = AgreementForm {
        examiners: "2".to_owned(),
        each: "3".to_owned(),
        ..form.clone()
    };
    assert_eq!(
        too_many.read().unwrap_err().each.unwrap(),
        "Write 2: there is no other number here."
    );
    let no_day = AgreementForm {
        from: "soon".to_owned(),
        ..form
    };
    let from = no_day.read().unwrap_err().from.unwrap();
    assert!(from.contains("`soon` is not a day"), "{from}");
}

#[test]
fn what_the_worker_is_asked_it_answers_and_the_page_shows() {
    let ledger = five().ledger;
    let asked = first(&ledger).read().unwrap();
    let (topic, job) = agreement_job(&ledger, &asked).unwrap();
    let outcome = perform(&job, &mut |_| ()).unwrap();
    let shown = agreement_shown(Some(&State::Done(Arc::new(outcome))));
    let Sure::Known(document) = shown else {
        panic!("{shown:?}");
    };
    assert_eq!(document.title, "Shoe for several examiners");
    // The same is known again, and something new is asked for anew.
    assert_eq!(agreement_job(&ledger, &asked).unwrap().0, topic);
    let more = five_and_one();
    assert_ne!(agreement_job(&more.ledger, &asked).unwrap().0, topic);
}

fn five_and_one() -> School {
    let mut school = five();
    let given = crate::moderation::sample::FIVE[0][0];
    school.marked(&[("Wm. Green", given)]);
    school
}

#[test]
fn days_without_a_piece_are_told_so() {
    let ledger = five().ledger;
    let form = AgreementForm {
        from: "2027-01-01".to_owned(),
        ..first(&ledger)
    };
    let (_, job) = agreement_job(&ledger, &form.read().unwrap()).unwrap();
    let Job::Agreement(sent) = &job else {
        panic!("{job:?}");
    };
    assert_eq!(sent.records.len(), 1, "the rubric alone");
    let outcome = perform(&job, &mut |_| ()).unwrap();
    let Sure::Known(document) = agreement_shown(Some(&State::Done(Arc::new(outcome)))) else {
        panic!("there is a document");
    };
    let said = evenshod::output::text(&document);
    assert!(said.contains("No piece was marked by two examiners apart yet"));
}

#[test]
fn how_it_stands_is_said() {
    let busy = |state: Option<State>| match agreement_shown(state.as_ref()) {
        Sure::Busy { share, .. } => share,
        other => panic!("{other:?}"),
    };
    assert_eq!(busy(None), None);
    assert_eq!(busy(Some(State::Working(0.0))), None);
    assert_eq!(busy(Some(State::Working(0.5))), Some(0.5));
    let unknown = |state: State| match agreement_shown(Some(&state)) {
        Sure::Unknown { text, again } => (text, again),
        other => panic!("{other:?}"),
    };
    assert_eq!(unknown(State::Stopped).1, Some("Work it out"));
    let (text, again) = unknown(State::Failed(Fault::Refused("the rubric is gone".into())));
    assert!(text.contains("the rubric is gone") && again.is_none());
    let (text, again) = unknown(State::Failed(Fault::Broken("out of memory".into())));
    assert!(text.contains("out of memory") && again == Some("Try again"));
}
