use std::collections::BTreeMap;
use std::sync::{Arc, Mutex, PoisonError};

use crate::marking::{Award, Facts, Marking, mark_in};
use crate::quantity::{Exact, print_decimal};
use crate::records::{self, Ledger, RubricVersion, Unit};
use crate::rubric::{Rubric, read_rubric};

/// Rubrics read from the texts that the ledger keeps, each read once.
#[derive(Debug, Default)]
pub struct Rubrics {
    read: Mutex<BTreeMap<String, Option<Arc<Rubric>>>>,
}

impl Rubrics {
    /// The rubric in `version`; `None` where this program cannot read it.
    pub fn get(&self, version: &RubricVersion) -> Option<Arc<Rubric>> {
        // Nothing is done under the lock that could leave it half done.
        let mut kept = self.read.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some(rubric) = kept.get(&version.digest) {
            return rubric.clone();
        }
        let rubric = read(&version.text);
        kept.insert(version.digest.clone(), rubric.clone());
        rubric
    }

    /// What `marking` comes to; `None` where its rubric is missing or unreadable.
    pub fn score(&self, ledger: &Ledger, marking: &records::Marking) -> Option<Score> {
        let rubric = self.get(ledger.rubric(&marking.rubric)?)?;
        Some(score(&rubric, &marking.facts, marking.unit))
    }
}

/// What a marking comes to, as rows and charts show it.
#[derive(Debug, Clone, PartialEq)]
pub struct Score {
    /// Marks given.
    pub marks: String,
    /// Marks that can be had in all.
    pub out_of: String,
    /// Marks that could be had from what is marked so far.
    pub marked_out_of: String,
    /// The award with what decides it: `not yet, 65 to pass`.
    pub award: String,
    /// Entries still missing.
    pub missing: usize,
    /// Marks in per cent of what can be had, for drawing.
    pub percent: f64,
    /// The pass mark in per cent, for drawing.
    pub pass_percent: Option<f64>,
    /// The pass mark in per cent, for reading.
    pub pass_words: String,
    /// Whether the award was stopped.
    pub stopped: bool,
}

fn read(text: &str) -> Option<Arc<Rubric>> {
    read_rubric(text).rubric.map(Arc::new)
}

fn score(rubric: &Rubric, facts: &Facts, unit: Unit) -> Score {
    let result = mark_in(rubric, facts, unit);
    let pass = result.pass_mark.percent_of(result.out_of);
    Score {
        marks: result.marks.to_string(),
        out_of: result.out_of.to_string(),
        marked_out_of: result.marked_out_of.to_string(),
        award: award_words(&result),
        missing: result.missing.len(),
        percent: result.percent.to_f64(),
        pass_percent: pass.map(Exact::to_f64),
        pass_words: pass.map(percent_words).unwrap_or_default(),
        stopped: !result.stopped_by.is_empty(),
    }
}

/// The award with what decides it.
fn award_words(result: &Marking) -> String {
    let stop = result.stops.iter().find(|stop| stop.lifted.is_none());
    match (stop, result.award) {
        (Some(stop), _) => format!("stopped: {}", stop.why),
        (None, Award::Pass) => result
            .grade
            .clone()
            .unwrap_or_else(|| Award::Pass.word().to_owned()),
        (None, Award::NotYet) => format!("not yet, {} to pass", result.pass_mark),
        (None, award) => award.word().to_owned(),
    }
}

/// Per cent to one place where it is not whole: `65 %`, `66.7 %`.
pub(super) fn percent_words(percent: Exact) -> String {
    let places = u32::from(percent.denominator() != 1);
    format!("{} %", print_decimal(percent, places))
}
