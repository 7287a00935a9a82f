//! What is asked to be told of a learner: addresses and the form of days.

use std::sync::Arc;

use evenshod::job::{Fault, Outcome, State};
use evenshod::present::{CourseAsked, SpanForm, Sure, course_state};
use evenshod::records::Day;
use evenshod::sheet::{Document, course_figures};

fn asked(rubric: &str, from: &str, to: &str) -> CourseAsked {
    let part = |text: &str| (!text.is_empty()).then(|| text.to_owned());
    CourseAsked::in_address(part(rubric), part(from), part(to))
}

#[test]
fn an_address_says_what_is_asked() {
    for (rubric, from, to, address) in [
        ("", "", "", ""),
        ("bar", "", "", "?rubric=bar"),
        ("", "2026-03-01", "", "?from=2026-03-01"),
        (
            "bar",
            "2026-03-01",
            "2026-05-31",
            "?rubric=bar&from=2026-03-01&to=2026-05-31",
        ),
    ] {
        let asked = asked(rubric, from, to);
        assert_eq!(asked.address(), address);
        let form = asked.form();
        assert_eq!((form.from.as_str(), form.to.as_str()), (from, to));
        assert_eq!(form.read(), Ok(asked.span));
    }
    // A day that is none asks for nothing.
    assert_eq!(asked("", "soon", "2026-02-30").address(), "");
    let other = asked("bar", "2026-03-01", "").by("open");
    assert_eq!(other.address(), "?rubric=open&from=2026-03-01");
}

#[test]
fn a_form_says_what_is_wrong_with_its_days() {
    let form = |from: &str, to: &str| SpanForm {
        from: from.to_owned(),
        to: to.to_owned(),
    };
    let (first, last) = form("soon", "2026-03-01").read().unwrap_err();
    assert!(first.is_some() && last.is_none());
    let (first, last) = form("2026-03-02", "2026-03-01").read().unwrap_err();
    assert_eq!(first, None);
    assert_eq!(last.unwrap(), "The last day lies before the first one.");
    let same = form("2026-03-01", "2026-03-01").read().unwrap();
    assert!(same.holds(Day::new(2026, 3, 1).unwrap()));
    assert!(!same.holds(Day::new(2026, 3, 2).unwrap()));
}

#[test]
fn what_the_worker_is_at_is_said() {
    let figures = course_figures(&numbers(), Vec::new());
    let done = Outcome::Course(Box::new(figures.clone()));
    let state = |state: State| course_state(Some(&state));
    assert_eq!(state(State::Done(Arc::new(done))), Sure::Known(figures));
    assert!(matches!(course_state(None), Sure::Busy { share: None, .. }));
    let working = state(State::Working(0.5));
    assert!(matches!(working, Sure::Busy { share: Some(_), .. }));
    let again = |shown| match shown {
        Sure::Unknown { again, .. } => again,
        _ => panic!("nothing is known"),
    };
    assert!(again(state(State::Stopped)).is_some());
    assert!(again(state(State::Failed(Fault::Broken("x".to_owned())))).is_some());
    assert!(again(state(State::Failed(Fault::Refused("x".to_owned())))).is_none());
    let other = Document {
        title: String::new(),
        about: String::new(),
        language: "en-GB".into(),
        most_pages: None,
        blocks: Vec::new(),
    };
    assert!(again(state(State::Done(Arc::new(Outcome::Agreement(other))))).is_none());
}

fn numbers() -> evenshod::progress::Numbers {
    serde_json::from_str(r#"{"whole": 0, "alike": null, "pieces": [], "tallies": [], "own": []}"#)
        .unwrap()
}
