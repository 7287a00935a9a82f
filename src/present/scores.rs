use std::collections::BTreeMap;
use std::sync::{Arc, Mutex, PoisonError};

use crate::marking::Facts;
use crate::records::{Ledger, Marking, RubricVersion};
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
    pub fn score(&self, ledger: &Ledger, marking: &Marking) -> Option<Score> {
        let rubric = self.get(ledger.rubric(&marking.rubric)?)?;
        score(&rubric, &marking.facts)
    }
}

/// What a marking comes to, as rows and charts show it.
#[derive(Debug, Clone, PartialEq)]
pub struct Score {
    /// Marks given, for people.
    pub marks: String,
    /// Marks that could be had; of what is marked so far in a draft.
    pub out_of: String,
    /// The award with what decides it: `not yet, 65 to pass`.
    pub award: String,
    /// Entries still missing.
    pub missing: usize,
    /// Per cent of what can be had, for drawing.
    pub percent: f64,
    /// The pass mark in per cent and in words, for drawing.
    pub pass: Option<(f64, String)>,
    /// The award was stopped.
    pub stopped: bool,
}

fn read(text: &str) -> Option<Arc<Rubric>> {
    read_rubric(text).rubric.map(Arc::new)
}

fn score(_rubric: &Rubric, _facts: &Facts) -> Option<Score> {
    // Filled in when the marking room marks.
    None
}
