use evenshod::command::{Command, CommandError, LearnerDetails};
use evenshod::present::{
    DetailsErrors, DetailsForm, OutsideRow, Rubrics, StartForm, details_words, learner_choices,
    learner_rows, offers, status_words,
};
use evenshod::records::{Day, Learner, LearnerId, LearnerStatus, Ledger, OutsideNumber};

use crate::records::sample::{after, day, now, stamp};

fn learner() -> Learner {
    Learner {
        given_number: Some("17".to_owned()),
        outside_numbers: vec![
            OutsideNumber {
                by: "Wexcombe Guild".to_owned(),
                number: "WG 1".to_owned(),
            },
            OutsideNumber {
                by: String::new(),
                number: "0815".to_owned(),
            },
        ],
        employer: Some("Oakes Forge".to_owned()),
        started: Day::new(2024, 9, 1),
        planned_end: Day::new(2027, 8, 31),
        status: LearnerStatus::Paused,
        ..Learner::named(
            LearnerId::made_by(&stamp(0), 0),
            stamp(0),
            "Ada Smith".to_owned(),
        )
    }
}

#[track_caller]
fn errors(form: &DetailsForm) -> DetailsErrors {
    *form.read().unwrap_err()
}

#[test]
fn a_form_that_nobody_touched_reads_as_what_it_was_made_of() {
    let bare = Learner::named(learner().id, stamp(0), "Ada Smith".to_owned());
    for learner in [learner(), bare] {
        let before = LearnerDetails::of(&learner);
        let ledger = Ledger::of([learner.clone().into()]);
        let read = DetailsForm::of(&learner).read().unwrap();
        let set = Command::SetLearner {
            learner: learner.id,
            before: Box::new(before),
            after: Box::new(read),
        };
        assert_eq!(after(&ledger, set, &stamp(1)).0, ledger);
    }
    assert_eq!(DetailsForm::of(&learner()).started, "2024-09-01");
}

#[test]
fn every_fault_is_told_beside_its_field() {
    let form = DetailsForm {
        name: " ".to_owned(),
        outside: vec![
            OutsideRow::default(),
            OutsideRow {
                by: "Wexcombe Guild".to_owned(),
                number: " ".to_owned(),
            },
        ],
        started: "2026-02-30".to_owned(),
        planned_end: "0202-09-01".to_owned(),
        status: "gone".to_owned(),
        ..DetailsForm::of(&learner())
    };
    let mut found = errors(&form);
    let number = "Write the number, or remove this row.".to_owned();
    assert_eq!(found.outside, [None, Some(number)]);
    assert_eq!(
        found.planned_end.as_deref(),
        Some("1 Sep 0202 is not between 1950 and 2199; look at the year.")
    );
    // The first from the top, one after the other.
    assert_eq!(found.first_field().as_deref(), Some("name"));
    found.name = None;
    assert_eq!(found.first_field().as_deref(), Some("outside-number-1"));
    found.outside.clear();
    assert_eq!(found.first_field().as_deref(), Some("started"));
    found.started = None;
    assert_eq!(found.first_field().as_deref(), Some("planned-end"));
    found.planned_end = None;
    assert_eq!(found.first_field().as_deref(), Some("status"));
    found.status = None;
    assert_eq!(found, DetailsErrors::default());
    assert_eq!(found.first_field(), None);
}

#[test]
fn an_end_before_the_start_is_told_in_the_words_of_the_command() {
    let on = |started: &str, planned_end: &str| DetailsForm {
        started: started.to_owned(),
        planned_end: planned_end.to_owned(),
        ..DetailsForm::of(&learner())
    };
    let wrong = errors(&on("2026-09-01", "2026-08-31"));
    let refused = CommandError::EndBeforeStart {
        started: Day::new(2026, 9, 1).unwrap(),
        planned_end: Day::new(2026, 8, 31).unwrap(),
    };
    assert_eq!(wrong, DetailsErrors::refused(&refused));
    assert_eq!(
        wrong.planned_end.as_deref(),
        Some(
            "The planned end, 31 Aug 2026, lies before the start, 1 Sep 2026; correct one of \
             the two dates."
        )
    );
    for fine in [("2026-09-01", "2026-09-01"), ("", "2026-09-01"), ("", "")] {
        assert!(on(fine.0, fine.1).read().is_ok(), "{fine:?}");
    }
}

#[test]
fn a_refused_name_is_told_at_the_name() {
    let name = "Ada Smith".to_owned();
    let errors = DetailsErrors::refused(&CommandError::NameTaken { name });
    assert_eq!(errors.first_field().as_deref(), Some("name"));
    let errors = DetailsErrors::refused(&CommandError::NotReady);
    assert_eq!((errors.first_field(), errors.other.is_some()), (None, true));
}

fn facts(learner: &Learner, today: Day) -> Vec<String> {
    let words = details_words(learner, today).into_iter();
    words
        .map(|(label, value)| format!("{label}: {value}"))
        .collect()
}

#[test]
fn what_is_known_is_said_and_nothing_else() {
    assert_eq!(
        facts(&learner(), day()),
        [
            "Status: paused",
            "Employer: Oakes Forge",
            "Started: 1 September 2024",
            "Planned end: 31 August 2027, 9\u{a0}months\u{a0}left",
            "Wexcombe Guild: WG 1",
            "Outside number: 0815",
        ]
    );
    let bare = Learner::named(learner().id, stamp(0), "Ada Smith".to_owned());
    assert_eq!(details_words(&bare, day()), []);
}

#[test]
fn the_time_left_is_in_whole_months() {
    let left = |year, month, day| {
        let today = Day::new(year, month, day).unwrap();
        let facts = facts(&learner(), today);
        let end = facts.iter().find(|fact| fact.starts_with("Planned end"));
        end.unwrap().split_once(", ").unwrap().1.to_owned()
    };
    assert_eq!(left(2025, 8, 31), "24\u{a0}months\u{a0}left");
    assert_eq!(left(2027, 7, 31), "1\u{a0}month\u{a0}left");
    assert_eq!(left(2027, 8, 1), "less than a month left");
    assert_eq!(left(2027, 8, 31), "less than a month left");
    assert_eq!(left(2027, 9, 1), "passed");
    let mut over = learner();
    over.status = LearnerStatus::Left;
    assert!(facts(&over, day()).contains(&"Planned end: 31 August 2027".to_owned()));
}

#[test]
fn every_status_has_its_own_words() {
    let mut words: Vec<_> = LearnerStatus::ALL.into_iter().map(status_words).collect();
    words.dedup();
    assert_eq!(words.len(), LearnerStatus::ALL.len());
    for status in LearnerStatus::ALL {
        assert_eq!(status_words(status).0.to_lowercase(), status.word());
    }
}

/// Four learners, one of each status, and their ids.
fn of_every_status() -> (Ledger, Vec<LearnerId>) {
    let all = (0..).zip(LearnerStatus::ALL).map(|(at, status)| Learner {
        status,
        ..Learner::named(
            LearnerId::made_by(&stamp(at), 0),
            stamp(at),
            format!("Ada {at}"),
        )
    });
    let all: Vec<Learner> = all.collect();
    let ids = all.iter().map(|learner| learner.id).collect();
    (Ledger::of(all.into_iter().map(Into::into)), ids)
}

#[test]
fn who_has_completed_or_left_is_listed_apart_and_who_pauses_is_not() {
    let (ledger, _) = of_every_status();
    let rows = learner_rows(&ledger, &Rubrics::default(), now());
    let rows: Vec<_> = rows.iter().map(|row| (row.is_over, &*row.about)).collect();
    assert_eq!(
        rows,
        [
            (false, "no pieces yet"),
            (false, "paused, no pieces yet"),
            (true, "completed, no pieces yet"),
            (true, "left, no pieces yet"),
        ]
    );
}

#[test]
fn a_piece_is_begun_by_who_still_learns_or_is_asked_for() {
    let (ledger, ids) = of_every_status();
    let offered = |asked: &str| -> Vec<LearnerId> {
        let choices = learner_choices(&ledger, asked).into_iter();
        choices.map(|choice| choice.id).collect()
    };
    assert_eq!(offered(""), ids[..2]);
    assert_eq!(offered("nobody"), ids[..2]);
    assert_eq!(offered(&ids[0].to_string()), ids[..2]);
    assert_eq!(offered(&ids[3].to_string()), [ids[0], ids[1], ids[3]]);
}

#[test]
fn the_form_opens_on_the_list_where_anybody_is_on_it() {
    let (ledger, ids) = of_every_status();
    let left = ids[3].to_string();
    let over = Ledger::of([ledger.learner(ids[3]).unwrap().clone().into()]);
    let open = |ledger: &Ledger, asked: &str| {
        let fresh = StartForm::fresh(ledger, &offers(), day(), String::new(), "mm");
        let form = fresh.asked_for(ledger, asked);
        (form.who, form.learner)
    };
    let pair = |who: &str, learner: &str| (who.to_owned(), learner.to_owned());
    assert_eq!(open(&ledger, ""), pair("listed", ""));
    assert_eq!(open(&ledger, &left), pair("listed", &left));
    assert_eq!(open(&over, &left), pair("listed", &left));
    assert_eq!(open(&over, ""), pair("new", ""));
    assert_eq!(open(&over, "nobody"), pair("new", ""));
}
