//! The demo as the program opens it, made once for all tests.

use std::collections::BTreeMap;
use std::sync::{Arc, Mutex, OnceLock, PoisonError};

use evenshod::command::{Command, apply};
use evenshod::demo::open_demo;
use evenshod::marking::{Marking as Outcome, mark_in};
use evenshod::records::{Day, Ledger, Marking, Role};
use evenshod::rubric::{Rubric, read_rubric, shipped};
use evenshod::sheet::{Rows, Scored, long_rows};

use crate::records::sample::stamp;

/// The day that [`stamp`] 0 is on.
pub fn today() -> Day {
    Day::new(2026, 11, 25).unwrap()
}

/// The rubrics that the demo works to.
pub fn texts() -> Vec<&'static str> {
    shipped().iter().map(|file| file.text).take(5).collect()
}

/// The command that opens the demo in an empty ledger.
pub fn opening() -> &'static Command {
    static OPENING: OnceLock<Command> = OnceLock::new();
    OPENING.get_or_init(|| open_demo(&Ledger::default(), today()).unwrap())
}

/// An empty ledger with the demo in it.
pub fn demo() -> &'static Ledger {
    static DEMO: OnceLock<Ledger> = OnceLock::new();
    DEMO.get_or_init(|| opened_in(&Ledger::default()))
}

/// `ledger` with the demo in it.
pub fn opened_in(ledger: &Ledger) -> Ledger {
    ledger.with(&apply(ledger, opening().clone(), &stamp(0)).unwrap())
}

/// A marking's rubric; each is read once.
pub fn rubric_of(ledger: &Ledger, marking: &Marking) -> Arc<Rubric> {
    static READ: Mutex<BTreeMap<String, Arc<Rubric>>> = Mutex::new(BTreeMap::new());
    let version = ledger.rubric(&marking.rubric).unwrap();
    let read = || Arc::new(read_rubric(&version.text).rubric.unwrap());
    let mut kept = READ.lock().unwrap_or_else(PoisonError::into_inner);
    kept.entry(version.digest.clone())
        .or_insert_with(read)
        .clone()
}

pub fn outcome(ledger: &Ledger, marking: &Marking) -> Outcome {
    mark_in(&rubric_of(ledger, marking), &marking.facts, marking.unit)
}

/// Per cent of a learner's pieces by their first examiner, as they were made.
pub fn percents(ledger: &Ledger, learner: &str) -> Vec<f64> {
    let learner = ledger.learners().find(|one| one.name == learner).unwrap();
    let mut pieces: Vec<_> = ledger.pieces_of(learner.id).collect();
    pieces.reverse();
    let first = pieces.into_iter().filter_map(|piece| {
        ledger
            .markings_of(piece.id)
            .find(|marking| marking.role == Role::First && marking.seal.is_some())
    });
    first
        .map(|marking| outcome(ledger, marking).percent.to_f64())
        .collect()
}

pub fn mean(numbers: &[f64]) -> f64 {
    let count: f64 = numbers.iter().map(|_| 1.0).sum();
    numbers.iter().sum::<f64>() / count
}

/// Every criterion of every marking, a row each, as a file has them.
pub fn criteria() -> Rows {
    let markings: Vec<_> = demo().markings().collect();
    let rubrics: Vec<_> = markings.iter().map(|one| rubric_of(demo(), one)).collect();
    let scored = markings.iter().zip(&rubrics);
    let scored: Vec<_> = scored
        .map(|(marking, rubric)| Scored::in_ledger(demo(), marking, rubric).unwrap())
        .collect();
    long_rows(&scored)
}
