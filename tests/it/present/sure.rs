//! The page that says how sure a marking is.

use std::sync::Arc;

use evenshod::job::{Fault, State};
use evenshod::present::{NoSheet, Rubrics, Sure, sure, sure_page};
use evenshod::records::{Ledger, MarkingId};
use evenshod::worker::perform;

use crate::records::sample::{level, seal};
use crate::sheet::beside::both;
use crate::sheet::sample::{bar_shoe_text, performed, whole_bar_shoe};

fn said(ledger: &Ledger, marking: MarkingId, state: State) -> Sure {
    sure(ledger, &Rubrics::default(), marking, Some(&state))
}

fn why(ledger: &Ledger, marking: MarkingId, fault: Fault) -> (String, Option<&'static str>) {
    match said(ledger, marking, State::Failed(fault)) {
        Sure::Unknown { text, again } => (text, again),
        other => panic!("{other:?}"),
    }
}

#[test]
fn what_the_worker_is_asked_it_answers_and_the_page_shows() {
    let (ledger, marking) = whole_bar_shoe();
    let piece = ledger.marking(marking).unwrap().piece;
    let page = sure_page(&ledger, &Rubrics::default(), piece, None).unwrap();
    assert_eq!(page.marking, marking);
    assert!(page.file_base.ends_with("_how-sure"), "{}", page.file_base);
    let outcome = perform(&page.job, &mut |_| ()).unwrap();
    let shown = said(&ledger, marking, State::Done(Arc::new(outcome)));
    let Sure::Known(document) = shown else {
        panic!("{shown:?}");
    };
    assert_eq!(document.title, page.title);
}

#[test]
fn another_stamp_is_another_version() {
    let (ledger, marking) = whole_bar_shoe();
    let piece = ledger.marking(marking).unwrap().piece;
    let topic = |ledger: &Ledger| {
        let page = sure_page(ledger, &Rubrics::default(), piece, Some(marking));
        page.unwrap().topic
    };
    let changed = performed(ledger.clone(), vec![level(marking, "weld", "open")]);
    let (before, after) = (topic(&ledger), topic(&changed));
    assert_eq!(before.about, after.about);
    assert_ne!(before.version, after.version);
    assert_eq!(topic(&ledger), before);
}

#[test]
fn it_is_not_shown_before_the_other_marking_is_sealed() {
    let (ledger, other, own) = both(bar_shoe_text(), None);
    let piece = ledger.marking(own).unwrap().piece;
    let ledger = performed(ledger, vec![seal(other)]);
    // What a page is made of is long; why there is none is not.
    let why = |ledger: &Ledger, wanted| sure_page(ledger, &Rubrics::default(), piece, wanted).err();
    assert_eq!(why(&ledger, None), Some(NoSheet::Unseen));
    assert_eq!(why(&ledger, Some(other)), Some(NoSheet::Unseen));
    let ledger = performed(ledger, vec![seal(own)]);
    assert_eq!(why(&ledger, Some(other)), None);
    assert_eq!(why(&Ledger::default(), None), Some(NoSheet::Lost));
}

#[test]
fn while_it_is_worked_out_it_says_how_far() {
    let (ledger, marking) = whole_bar_shoe();
    let share =
        |state: Option<State>| match sure(&ledger, &Rubrics::default(), marking, state.as_ref()) {
            Sure::Busy { share, .. } => share,
            other => panic!("{other:?}"),
        };
    assert_eq!(share(None), None);
    assert_eq!(share(Some(State::Waiting)), None);
    assert_eq!(
        share(Some(State::Working(0.0))),
        None,
        "begun is not a share"
    );
    assert_eq!(share(Some(State::Working(0.5))), Some(0.5));
}

#[test]
fn where_there_is_no_result_it_says_why_and_that_the_marks_stand() {
    let (ledger, marking) = whole_bar_shoe();
    let reason = || "no such file".to_owned();
    let (text, again) = why(&ledger, marking, Fault::NotStarted(reason()));
    assert!(
        text.contains("did not start") && text.contains("no such file"),
        "{text}"
    );
    assert!(text.contains("marks and award stand"), "{text}");
    assert_eq!(again, Some("Try again"));
    let (text, again) = why(&ledger, marking, Fault::Broken(reason()));
    assert!(
        text.contains("broke off") && text.contains("no such file"),
        "{text}"
    );
    assert_eq!(again, Some("Try again"));
    let (text, again) = why(&ledger, marking, Fault::Refused(reason()));
    assert!(text.contains("no such file"), "{text}");
    assert_eq!(again, None, "it would be refused again");
    let stopped = said(&ledger, marking, State::Stopped);
    assert!(
        matches!(
            stopped,
            Sure::Unknown {
                again: Some("Work it out"),
                ..
            }
        ),
        "{stopped:?}"
    );
}
