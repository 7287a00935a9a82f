//! What is known of a learner, written by one tab or two.

use evenshod::command::{Command, CommandError, LearnerDetails, apply};
use evenshod::records::{
    Change, Day, Learner, LearnerId, LearnerStatus, Ledger, OutsideNumber, Stamp,
};
use proptest::prelude::*;

use crate::records::sample::{after, stamp, stamp_of};

fn id() -> LearnerId {
    LearnerId::made_by(&stamp(0), 0)
}

/// A ledger in which one learner is as `details` say.
fn with(details: &LearnerDetails) -> Ledger {
    let learner = Learner {
        name: details.name.clone(),
        given_number: details.given_number.clone(),
        outside_numbers: details.outside_numbers.clone(),
        employer: details.employer.clone(),
        started: details.started,
        planned_end: details.planned_end,
        status: details.status,
        erased: None,
        id: id(),
        stamp: stamp(0),
    };
    Ledger::of([learner.into()])
}

fn details() -> LearnerDetails {
    LearnerDetails {
        name: "Ada Smith".to_owned(),
        started: Day::new(2025, 9, 1),
        ..LearnerDetails::default()
    }
}

fn set(before: &LearnerDetails, after: &LearnerDetails) -> Command {
    Command::SetLearner {
        learner: id(),
        before: Box::new(before.clone()),
        after: Box::new(after.clone()),
    }
}

fn known(ledger: &Ledger) -> LearnerDetails {
    LearnerDetails::of(ledger.learner(id()).unwrap())
}

fn number(by: &str, number: &str) -> OutsideNumber {
    OutsideNumber {
        by: by.to_owned(),
        number: number.to_owned(),
    }
}

#[test]
fn details_are_kept_tidy() {
    let typed = LearnerDetails {
        name: "  Ada   Jones ".to_owned(),
        given_number: Some("  ".to_owned()),
        outside_numbers: vec![
            number(" Wexcombe  Guild", " WG  1 "),
            number("Register", " "),
            number("", "77"),
        ],
        employer: Some(" Thornwick\tForge ".to_owned()),
        started: Day::new(2025, 9, 2),
        planned_end: Day::new(2025, 9, 2),
        status: LearnerStatus::Paused,
    };
    let (ledger, _) = after(&with(&details()), set(&details(), &typed), &stamp(1));
    let wanted = LearnerDetails {
        name: "Ada Jones".to_owned(),
        given_number: None,
        outside_numbers: vec![number("Wexcombe Guild", "WG 1"), number("", "77")],
        employer: Some("Thornwick Forge".to_owned()),
        ..typed
    };
    assert_eq!(known(&ledger), wanted);
    assert_eq!(ledger.learner(id()).unwrap().stamp, stamp(1));
}

#[test]
fn nothing_changed_writes_nothing() {
    let ledger = with(&details());
    let spaced = LearnerDetails {
        name: " Ada  Smith".to_owned(),
        employer: Some(" ".to_owned()),
        outside_numbers: vec![number("Register", "")],
        ..details()
    };
    for same in [details(), spaced] {
        let change = apply(&ledger, set(&details(), &same), &stamp(1));
        assert_eq!(change, Ok(Change::default()));
    }
}

#[test]
fn an_end_before_the_start_is_refused_and_says_how_to_mend_it() {
    let ledger = with(&details());
    let wrong = LearnerDetails {
        planned_end: Day::new(2025, 8, 31),
        ..details()
    };
    let error = apply(&ledger, set(&details(), &wrong), &stamp(1)).unwrap_err();
    assert_eq!(
        error.to_string(),
        "the planned end, 31 Aug 2025, lies before the start, 1 Sep 2025; correct one of the \
         two dates"
    );
    // Two tabs, each right by itself.
    let (ledger, _) = after(
        &ledger,
        set(
            &details(),
            &LearnerDetails {
                started: Day::new(2025, 10, 1),
                ..details()
            },
        ),
        &stamp(1),
    );
    let ends = LearnerDetails {
        planned_end: Day::new(2025, 9, 15),
        ..details()
    };
    let refused = apply(&ledger, set(&details(), &ends), &stamp(2));
    assert!(matches!(refused, Err(CommandError::EndBeforeStart { .. })));
}

#[test]
fn a_name_is_needed_and_not_somebody_else_s() {
    let ledger = with(&details());
    let (ledger, _) = after(
        &ledger,
        Command::AddLearner {
            name: "Bea Coe".to_owned(),
            given_number: Some("7".to_owned()),
        },
        &stamp(1),
    );
    let call = |name: &str, number: &str| {
        let called = LearnerDetails {
            name: name.to_owned(),
            given_number: Some(number.to_owned()),
            ..details()
        };
        apply(&ledger, set(&details(), &called), &stamp(2))
    };
    assert!(matches!(call(" ", "7"), Err(CommandError::NoName { .. })));
    assert!(matches!(
        call("bea coe", " 7"),
        Err(CommandError::NameTaken { .. })
    ));
    assert!(call("Bea Coe", "8").is_ok());
}

/// Files of two devices may bring two people of one name, or dates in the wrong order.
#[test]
fn what_a_file_brought_hinders_no_change_of_something_else() {
    let odd = LearnerDetails {
        planned_end: Day::new(2020, 1, 1),
        ..details()
    };
    let twin = Learner::named(
        LearnerId::made_by(&stamp(9), 0),
        stamp(9),
        "Ada Smith".to_owned(),
    );
    let ledger = with(&odd).with(&Change {
        puts: vec![twin.into()],
        ..Change::default()
    });
    let employed = LearnerDetails {
        employer: Some("Thornwick Forge".to_owned()),
        ..odd.clone()
    };
    let (ledger, _) = after(&ledger, set(&odd, &employed), &stamp(10));
    assert_eq!(known(&ledger), employed);
}

fn text() -> impl Strategy<Value = Option<String>> {
    prop::option::of("[a-c]{1,2}")
}

/// Whatever a form may hold; no end lies before a start.
fn any_details() -> impl Strategy<Value = LearnerDetails> {
    (
        "[A-C]{1,2}",
        text(),
        prop::collection::vec(("[a-b]", "[1-2]"), 0..3),
        text(),
        prop::option::of(1..=28_u32),
        prop::option::of(1..=28_u32),
        prop::sample::select(&LearnerStatus::ALL[..]),
    )
        .prop_map(
            |(name, given_number, numbers, employer, started, ends, status)| LearnerDetails {
                name,
                given_number,
                outside_numbers: numbers.iter().map(|(by, no)| number(by, no)).collect(),
                employer,
                started: started.and_then(|day| Day::new(2024, 9, day)),
                planned_end: ends.and_then(|day| Day::new(2027, 8, day)),
                status,
            },
        )
}

/// `base` with those fields of `other` that `picked` names.
fn mixed(base: &LearnerDetails, other: &LearnerDetails, picked: [bool; 7]) -> LearnerDetails {
    let mut mixed = base.clone();
    let [
        name,
        given_number,
        numbers,
        employer,
        started,
        planned_end,
        status,
    ] = picked;
    if name {
        mixed.name = other.name.clone();
    }
    if given_number {
        mixed.given_number = other.given_number.clone();
    }
    if numbers {
        mixed.outside_numbers = other.outside_numbers.clone();
    }
    if employer {
        mixed.employer = other.employer.clone();
    }
    if started {
        mixed.started = other.started;
    }
    if planned_end {
        mixed.planned_end = other.planned_end;
    }
    if status {
        mixed.status = other.status;
    }
    mixed
}

proptest! {
    #[test]
    fn two_tabs_that_change_different_fields_both_count(
        base in any_details(),
        one in any_details(),
        other in any_details(),
        picked in any::<[bool; 7]>(),
    ) {
        let ledger = with(&base);
        let mine = set(&base, &mixed(&base, &one, picked));
        let theirs = set(&base, &mixed(&base, &other, picked.map(|field| !field)));
        let in_turn = |first: &Command, second: &Command| {
            let stamps: [Stamp; 2] = [stamp_of(1, 1), stamp_of(2, 2)];
            let (ledger, _) = after(&ledger, first.clone(), &stamps[0]);
            known(&after(&ledger, second.clone(), &stamps[1]).0)
        };
        let both = mixed(&other, &one, picked);
        prop_assert_eq!(in_turn(&mine, &theirs), both.clone());
        prop_assert_eq!(in_turn(&theirs, &mine), both);
    }

    #[test]
    fn the_last_word_on_one_field_counts(
        base in any_details(),
        one in any_details(),
        other in any_details(),
    ) {
        let (ledger, _) = after(&with(&base), set(&base, &one), &stamp(1));
        let (ledger, _) = after(&ledger, set(&base, &other), &stamp(2));
        let changed = [
            base.name != other.name,
            base.given_number != other.given_number,
            base.outside_numbers != other.outside_numbers,
            base.employer != other.employer,
            base.started != other.started,
            base.planned_end != other.planned_end,
            base.status != other.status,
        ];
        prop_assert_eq!(known(&ledger), mixed(&one, &other, changed));
    }
}
