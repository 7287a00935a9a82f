use std::collections::{BTreeMap, BTreeSet};

use evenshod::command::Command;
use evenshod::demo::{
    DemoError, Invented, demo_ledger, device, holds_demo, is_invented, open_demo,
};
use evenshod::records::{Day, Ended, Kind, LearnerStatus, Ledger, Record, Role, SittingKind};
use evenshod::rubric::shipped;

use super::sample::{demo, mean, opening, outcome, texts, today};

fn count(kind: Kind) -> usize {
    demo()
        .records()
        .filter(|record| record.kind() == kind)
        .count()
}

#[test]
fn the_school_has_its_people_and_170_markings_by_the_first_five_rubrics() {
    assert_eq!(count(Kind::Learner), 12);
    assert_eq!(count(Kind::Marking), 170);
    assert_eq!(count(Kind::Milestone), 4);
    assert_eq!(count(Kind::Rubric), shipped().len().min(5));
    let by = |wanted: &[Role]| {
        let markings = demo().markings().filter(|one| wanted.contains(&one.role));
        let examiners: Vec<_> = markings.map(|marking| marking.examiner).collect();
        let people: BTreeSet<_> = examiners.iter().collect();
        (examiners.len(), people.len())
    };
    assert_eq!(by(&[Role::First, Role::Second]).1, 3, "examiners");
    assert_eq!(by(&[Role::First]).0, 128);
    assert_eq!(by(&[Role::Second]).0, 23);
    assert_eq!(by(&[Role::Third]), (4, 3));
    assert_eq!(by(&[Role::Own]), (15, 5), "by five of the learners");
    assert_eq!(demo().drafts().count(), 3);
    for version in demo().rubrics() {
        let pieces = demo()
            .pieces()
            .filter(|piece| piece.rubric == version.digest);
        assert!(pieces.count() >= 10, "{}", version.title);
    }
}

#[test]
fn one_piece_is_withdrawn_and_one_stopped_for_safety() {
    let mut ended = BTreeMap::new();
    for piece in demo().pieces() {
        *ended.entry(piece.ended).or_insert(0) += 1;
    }
    assert_eq!(ended[&Some(Ended::Withdrawn)], 1);
    assert_eq!(ended[&Some(Ended::StoppedForSafety)], 1);
    assert_eq!(ended[&None], demo().drafts().count());
    assert!(ended[&Some(Ended::Finished)] > 80, "{ended:?}");
}

#[test]
fn mocks_and_exams_are_released_and_explained_but_for_the_last_one() {
    let sittings = demo().sittings().filter(|one| one.kind.waits());
    let (held, released): (Vec<_>, Vec<_>) = sittings.partition(|one| one.is_held());
    let [held] = held[..] else {
        panic!("{held:?}");
    };
    let last = demo().sittings().map(|one| one.day).max();
    assert_eq!(Some(held.day), last);
    assert!(released.len() > 5, "{}", released.len());
    for piece in demo().pieces() {
        let sitting = demo().sitting(piece.sitting).unwrap();
        match sitting.release() {
            None => assert_eq!(piece.feedback, None),
            Some(release) => {
                let told = piece.feedback.unwrap();
                assert!(told.at > release.at && told.by == release.by);
                assert!(release.at.day() >= sitting.day);
            }
        }
    }
    let pieces = demo().pieces().filter(|one| one.sitting == held.id);
    let sealed = pieces.filter(|one| demo().standing(one.id).counts().is_some());
    assert!(sealed.count() > 0, "there is something to release");
}

#[test]
fn it_runs_over_nine_months_that_end_a_few_days_before_today() {
    let days: BTreeSet<Day> = demo().sittings().map(|sitting| sitting.day).collect();
    let (first, last) = (*days.first().unwrap(), *days.last().unwrap());
    assert!((2..=5).contains(&today().days_since(last)), "{last}");
    assert!((260..=280).contains(&last.days_since(first)), "{first}");
    for kind in SittingKind::ALL {
        assert!(
            demo().sittings().any(|sitting| sitting.kind == kind),
            "{kind:?}"
        );
    }
    let midnight = 1_795_564_800_000;
    for record in demo().records() {
        assert!(record.stamp().time < midnight, "{}", record.key());
    }
    for marking in demo().markings() {
        let piece = demo().piece(marking.piece).unwrap();
        let day = demo().sitting(piece.sitting).unwrap().day;
        assert_eq!(marking.started.day(), day);
    }
}

#[test]
fn every_record_is_told_to_be_invented_and_reads_back() {
    for record in demo().records() {
        assert!(is_invented(&record), "{}", record.key());
        assert_eq!(record.stamp().device, device());
        assert_eq!(Record::read(&record.write().unwrap()).unwrap(), record);
    }
    assert!(demo().learners().all(|one| one.id.is_invented()));
    assert!(demo().examiners().all(|one| one.id.is_invented()));
    assert!(demo().sittings().all(|one| one.id.is_invented()));
    assert!(demo().pieces().all(|one| one.id.is_invented()));
    assert!(demo().markings().all(|one| one.id.is_invented()));
    // People read it too: on a sheet by the examiner, in a list by the number.
    assert!(demo().examiners().all(|one| one.name.contains("(invented")));
    let numbers = demo()
        .learners()
        .map(|one| one.given_number.clone().unwrap());
    assert!(
        numbers
            .into_iter()
            .all(|number| number.starts_with("invented "))
    );
}

#[test]
fn learners_have_details_and_one_has_left() {
    let all: Vec<_> = demo().learners().collect();
    let with = |status| all.iter().filter(|one| one.status == status).count();
    assert_eq!(with(LearnerStatus::Left), 1);
    assert_eq!(with(LearnerStatus::Paused), 1);
    assert_eq!(with(LearnerStatus::Learning), 10);
    let first_day = demo().sittings().map(|one| one.day).min().unwrap();
    for learner in &all {
        let (started, ends) = (learner.started.unwrap(), learner.planned_end.unwrap());
        assert!(started < first_day && started < ends, "{}", learner.name);
        let mut numbers = learner.outside_numbers.iter();
        assert!(numbers.all(|one| one.by.contains("(invented)")));
    }
    let numbers: BTreeSet<_> = all
        .iter()
        .flat_map(|one| &one.outside_numbers)
        .map(|one| &one.number)
        .collect();
    assert_eq!(numbers.len(), 10, "each has one of its own");
    assert_eq!(all.iter().filter(|one| one.employer.is_some()).count(), 10);
}

#[test]
fn the_same_day_and_seed_give_the_same_bytes() {
    let bytes = |ledger: &Ledger| -> Vec<String> {
        let records = ledger.records();
        records.map(|record| record.write().unwrap()).collect()
    };
    let again = open_demo(&Ledger::default(), today()).unwrap();
    assert!(
        again == *opening(),
        "the demo came out twice, and not alike"
    );
    let other = demo_ledger(&texts(), today(), 7).unwrap();
    assert_ne!(
        bytes(&other),
        bytes(demo()),
        "another seed, the same ledger"
    );
    assert_eq!(bytes(&other).len(), bytes(demo()).len());
}

#[test]
fn what_cannot_be_made_is_told() {
    assert_eq!(demo_ledger(&[], today(), 1), Err(DemoError::NoRubric));
    assert_eq!(
        demo_ledger(&["id = 1"], today(), 1),
        Err(DemoError::Unreadable)
    );
    let early = Day::new(1970, 9, 1).unwrap();
    let refused = DemoError::TooEarly { today: early };
    assert_eq!(demo_ledger(&texts(), early, 1), Err(refused));
    assert_eq!(open_demo(demo(), today()), Err(DemoError::OpenAlready));
    assert!(holds_demo(demo()) && !holds_demo(&Ledger::default()));
    let Command::Include { records } = opening() else {
        panic!("opening takes records in");
    };
    assert_eq!(records.len(), demo().records().count());
}

#[test]
fn two_examiners_of_one_piece_are_two_and_differ_a_little() {
    // Where two examiners saw one piece.
    let mut apart = Vec::new();
    for second in demo().markings().filter(|one| one.role == Role::Second) {
        let mut of = demo().markings_of(second.piece);
        let first = of.find(|one| one.role == Role::First).unwrap();
        assert_ne!(first.examiner, second.examiner);
        let percent = |one| outcome(demo(), one).percent.to_f64();
        apart.push((percent(first) - percent(second)).abs());
    }
    assert!(apart.iter().all(|one| *one < 25.0), "{apart:?}");
    assert!((0.8..7.5).contains(&mean(&apart)), "{apart:?}");
}
