//! Rubrics that the demo has never seen: a pair of shoes with every way to measure, and
//! a self-check without any.

use std::collections::BTreeSet;
use std::fs;
use std::sync::OnceLock;

use crate::rubric::sample::said_of;
use evenshod::demo::demo_ledger;
use evenshod::marking::{Reach, ResultState};
use evenshod::records::{Ended, Ledger, Role};
use evenshod::rubric::read_rubric;

use super::sample::{mean, outcome, rubric_of, texts, today};

const PAIR: &str = include_str!("../../data/demo/pair.toml");
const EIGHT: &str = include_str!("../../data/demo/eight.toml");

/// Every rubric of tests/data/schemes, in order.
fn schemes() -> Vec<String> {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/data/schemes");
    let files = fs::read_dir(folder)
        .unwrap()
        .map(|file| file.unwrap().path());
    let mut files: Vec<_> = files
        .filter(|path| path.extension().is_some_and(|ending| ending == "toml"))
        .collect();
    files.sort();
    files
        .iter()
        .map(|path| fs::read_to_string(path).unwrap())
        .collect()
}

/// Nothing typed is refused, and only what broke off lacks marks.
fn check_markings(ledger: &Ledger) {
    for marking in ledger.markings() {
        let outcome = outcome(ledger, marking);
        let title = &ledger.rubric(&marking.rubric).unwrap().title;
        assert_eq!(outcome.problems, [], "{title} {}", marking.id);
        let ended = ledger.piece(marking.piece).unwrap().ended;
        let breaks_off = marking.seal.is_none() || ended == Some(Ended::Withdrawn);
        let missing = &outcome.missing;
        assert!(outcome.complete || breaks_off, "{title} {missing:?}");
    }
}

#[test]
fn published_schemes_are_worked_to_without_a_problem() {
    let schemes = schemes();
    assert!(schemes.len() >= 14);
    for (seed, five) in (1..).zip(schemes.chunks(5)) {
        let five: Vec<&str> = five.iter().map(String::as_str).collect();
        let ledger = demo_ledger(&five, today(), seed).unwrap();
        assert_eq!(ledger.rubrics().count(), five.len());
        check_markings(&ledger);
    }
}

/// Five rubrics, the self-check first, and a sixth that is one too many.
fn ledger() -> &'static Ledger {
    static LEDGER: OnceLock<Ledger> = OnceLock::new();
    LEDGER.get_or_init(|| {
        for text in [PAIR, EIGHT] {
            let checked = read_rubric(text);
            let faults = said_of(&checked);
            assert!(faults.is_empty(), "{faults:?}");
        }
        let second = PAIR.replace("demo-pair", "demo-pair-2");
        let third = EIGHT.replace("demo-eight", "demo-eight-2");
        let all = [EIGHT, PAIR, texts()[0], &second, &third, texts()[1]];
        demo_ledger(&all, today(), 3).unwrap()
    })
}

#[test]
fn five_of_six_rubrics_are_worked_to() {
    assert_eq!(ledger().rubrics().count(), 5);
    assert_eq!(ledger().markings().count(), 170);
    for version in ledger().rubrics() {
        let pieces = ledger().pieces().filter(|one| one.rubric == version.digest);
        assert!(pieces.count() >= 12, "{}", version.title);
    }
}

#[test]
fn each_marking_is_complete_and_without_a_problem() {
    check_markings(ledger());
    let outcomes = ledger().markings().map(|one| outcome(ledger(), one));
    let states: BTreeSet<&str> = outcomes
        .flat_map(|outcome| outcome.criteria)
        .map(|result| result.state.word())
        .collect();
    let expect = [
        ResultState::Valued,
        ResultState::NotApplicable,
        ResultState::NotMade,
    ];
    for state in expect {
        assert!(states.contains(state.word()), "{} never came", state.word());
    }
}

#[test]
fn the_piece_that_is_stopped_has_a_rubric_with_a_fault_that_stops() {
    let stopped = ledger()
        .pieces()
        .find(|piece| piece.ended == Some(Ended::StoppedForSafety))
        .unwrap();
    let marking = ledger().markings_of(stopped.id).next().unwrap();
    assert!(!outcome(ledger(), marking).stops.is_empty());
}

#[test]
fn every_criterion_is_neither_always_won_nor_always_lost() {
    for version in ledger().rubrics() {
        let rubric = read_rubric(&version.text).rubric.unwrap();
        let markings: Vec<_> = ledger()
            .markings()
            .filter(|one| one.rubric == version.digest && one.seal.is_some())
            .map(|one| outcome(ledger(), one))
            .collect();
        for entry in rubric.entries() {
            let shares: Vec<f64> = markings
                .iter()
                .filter_map(|one| one.criterion(&entry.id))
                .filter(|result| result.state == ResultState::Valued)
                .filter_map(|result| result.marks?.percent_of(result.out_of))
                .map(|percent| percent.to_f64())
                .collect();
            let share = mean(&shares);
            assert!(
                (25.0..100.0).contains(&share),
                "{} {} {share}: {shares:?}",
                version.rubric_id,
                entry.id
            );
        }
    }
}

#[test]
fn a_pair_is_alike_because_its_shoes_are_compared() {
    let mut seen = 0;
    for marking in ledger().markings().filter(|one| one.role == Role::First) {
        let rubric = rubric_of(ledger(), marking);
        if !rubric.id.starts_with("demo-pair") || marking.seal.is_none() {
            continue;
        }
        let outcome = outcome(ledger(), marking);
        let Some(measured) = outcome
            .criterion("alike")
            .and_then(|one| one.measured.clone())
        else {
            continue;
        };
        let apart = measured.value.and_then(Reach::single);
        // 25 mm in nanometres: two shoes for one horse.
        assert!(
            apart.is_none_or(|one| one.to_f64().abs() < 2.5e7),
            "{apart:?}"
        );
        seen += usize::from(apart.is_some());
    }
    assert!(seen > 20, "{seen}");
}
