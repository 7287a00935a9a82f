//! An instrument study in words.

use evenshod::job::{Answer, Job, Outcome, Request, Said, StudyWanted};
use evenshod::output::text as plain_text;
use evenshod::records::{Place, StudyFacts};
use evenshod::sheet::study_sheet;
use evenshod::worker::take;

use crate::study::{AIAG, study};

fn told(facts: &StudyFacts) -> String {
    let text = plain_text(&study_sheet(facts, "Caliper 7").document);
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

fn says(text: &str, wanted: &[&str]) {
    for wanted in wanted {
        assert!(text.contains(wanted), "{wanted}\n\n{text}");
    }
}

/// From the table of variance of AIAG, appendix A (equipment 2.75893 on 60, appraisers
/// 3.16726 on 2, pooled 0.039973 on 78): the root of 2.75893 over 60 is 0.2144, times 2.772
/// 0.594; its interval by chi-squared (83.30 and 40.48). One reading: 0.3024 on 5.9 degrees of
/// freedom, times t of 5, 2.571. Steps: 1.41 times 1.0423 over 0.3024, 4.86.
#[test]
fn a_published_study_in_plain_sentences() {
    let text = told(&study(AIAG, 3, 3));
    says(
        &text,
        &[
            "One reading with Caliper 7, whoever of such people takes it, lies within 0.78 mm of \
             the mean of many such readings, 19 times of 20.",
            "differ by more than 0.59 mm only about once in 20 times",
            "is 0.21 mm; it may be from 0.18 to 0.26 mm (95 % interval).",
            "a standard deviation of 0.23 mm (reproducibility)",
            "56 % comes of who measures",
            "about 4 steps apart",
            "F 0.43; chance alone gives as much in 97 of 100",
            "Readings: 90 of 90",
            "Part 4, Person 2: the readings lie 1.020 mm apart; 0.708 mm is the most",
        ],
    );
    assert!(!text.contains("not there yet"));
    let sheet = study_sheet(&study(AIAG, 3, 3), "Caliper 7");
    assert_eq!(sheet.repeatability.as_deref(), Some("0.22 mm"));
}

#[test]
fn what_is_missing_or_cannot_be_read_is_said_by_its_name() {
    let mut facts = study(AIAG, 3, 3);
    let at = |part, person, trial| Place {
        part,
        person,
        trial,
    };
    facts.parts[1].name = "Toe".to_owned();
    facts.people[2].name = "B".to_owned();
    facts.readings.insert(at(2, 3, 1), "tall".to_owned());
    facts.readings.remove(&at(4, 1, 2));
    says(
        &told(&facts),
        &[
            "Toe, B, trial 1: `tall` is not a number",
            "1 reading is not there yet.",
            "Left out there: Toe; Part 4.",
        ],
    );
    let mut single = study("10 11\n20 21", 1, 2);
    single.readings.retain(|place, _| place.trial == 1);
    says(
        &told(&single),
        &["Nothing can be said yet: type two readings"],
    );
    says(
        &told(&study("10 11\n20 20.5", 1, 2)),
        &[
            "These are few repeats",
            "How people differ is not worked out: it takes two people or more.",
        ],
    );
    says(
        &told(&study("10 10 10 10\n20 20 20 20", 2, 2)),
        &["One person’s readings of the same part never differ here"],
    );
}

/// {20.1, 20.3} of 20: 0.2 with a standard error of 0.1; 0.24 stated makes that 0.26, of
/// which (0.24 / 0.26) squared is 85 %.
#[test]
fn a_known_size_and_its_share_of_the_uncertainty_are_told() {
    let mut facts = study("20.1 20.3\n10 10.2", 1, 2);
    facts.parts[0].reference = Some("20".to_owned());
    facts.parts[0].uncertainty = Some("0.24".to_owned());
    says(
        &told(&facts),
        &[
            "Part 1: readings show 0.20 mm too much on the mean of all people",
            "that may be chance",
            "Of its variance 85 % is that of the known size, which is uncertain by 0.24 mm.",
        ],
    );
    facts.parts[0].uncertainty = None;
    says(&told(&facts), &["so it counts as exact"]);
}

/// A name says nothing of readings: another gives the same figures under another name.
#[test]
fn the_worker_answers_with_the_sheet_and_refuses_what_is_no_study() {
    let facts = study(AIAG, 3, 3);
    let answer = |facts: StudyFacts| {
        let instrument = "Caliper 7".to_owned();
        let job = Job::Study(StudyWanted { facts, instrument });
        let mut said = Vec::new();
        let text = Request { id: 1, job }.write().unwrap();
        take(&text, &mut |one| said.push(one));
        let last = said.pop().unwrap();
        assert_eq!(Said::read(&last.write().unwrap()).as_ref(), Ok(&last));
        match last {
            Said::About { answer, .. } => answer,
            other => panic!("{other:?}"),
        }
    };
    let wanted = study_sheet(&facts, "Caliper 7");
    assert_eq!(answer(facts.clone()), Answer::Done(Outcome::Study(wanted)));
    let wrong = StudyFacts { trials: 1, ..facts };
    let why = "trials: 1 of each; give 2 to 10".to_owned();
    assert_eq!(answer(wrong), Answer::Failed(why));
}
