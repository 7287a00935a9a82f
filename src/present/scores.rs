use std::collections::BTreeMap;
use std::sync::{Arc, Mutex, OnceLock, PoisonError};

use crate::marking::{Award, Marking};
use crate::quantity::Exact;
use crate::records::{self, Lack, Ledger, RubricVersion};
use crate::rubric::{Rubric, read_rubric};
use crate::sheet::percent_words;

/// How rubrics are read and marked against. It is handed over, as the page's first
/// module is to reach neither (`page/late.rs`).
#[derive(Debug, Clone, Copy)]
pub struct Scorer {
    read: fn(&str) -> Option<Arc<Rubric>>,
    score: fn(&Ledger, &Rubric, &records::Marking) -> Score,
}

impl Scorer {
    /// The one that there is.
    #[expect(
        clippy::new_without_default,
        reason = "whoever names it is to see that it brings the reader of rubrics along"
    )]
    pub fn new() -> Self {
        Self { read, score }
    }
}

/// Rubrics read from the texts that the ledger keeps, each read once.
#[derive(Debug)]
pub struct Rubrics {
    read: Mutex<BTreeMap<String, Option<Arc<Rubric>>>>,
    scorer: OnceLock<Scorer>,
}

impl Default for Rubrics {
    fn default() -> Self {
        let rubrics = Self::waiting();
        rubrics.score_with(Scorer::new());
        rubrics
    }
}

impl Rubrics {
    /// None can be read until [`Rubrics::score_with`].
    pub fn waiting() -> Self {
        Self {
            read: Mutex::default(),
            scorer: OnceLock::new(),
        }
    }

    /// From now on rubrics can be read.
    pub fn score_with(&self, scorer: Scorer) {
        // There is but one, so the one that is there already does as well.
        let _ = self.scorer.set(scorer);
    }

    /// The rubric in `version`; `None` where this program cannot read it, or not yet.
    pub fn get(&self, version: &RubricVersion) -> Option<Arc<Rubric>> {
        let scorer = self.scorer.get()?;
        // Nothing is done under the lock that could leave it half done.
        let mut kept = self.read.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some(rubric) = kept.get(&version.digest) {
            return rubric.clone();
        }
        let rubric = (scorer.read)(&version.text);
        kept.insert(version.digest.clone(), rubric.clone());
        rubric
    }

    /// What `marking` comes to; `None` where its rubric is missing or unreadable.
    pub fn score(&self, ledger: &Ledger, marking: &records::Marking) -> Option<Score> {
        let rubric = self.get(ledger.rubric(&marking.rubric)?)?;
        let scorer = self.scorer.get()?;
        Some((scorer.score)(ledger, &rubric, marking))
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
    /// What keeps it from giving the piece a result.
    pub lack: Option<Lack>,
}

fn read(text: &str) -> Option<Arc<Rubric>> {
    read_rubric(text).rubric.map(Arc::new)
}

fn score(ledger: &Ledger, rubric: &Rubric, marking: &records::Marking) -> Score {
    let result = ledger.outcome(marking, rubric);
    let lack = ledger.lack(marking, rubric);
    let pass = result.pass_mark.percent_of(result.out_of);
    Score {
        marks: result.marks.to_string(),
        out_of: result.out_of.to_string(),
        marked_out_of: result.marked_out_of.to_string(),
        award: match lack {
            Some(lack) => format!("{}: {}", result.award.word(), lack.words()),
            None => award_words(&result),
        },
        missing: result.missing.len(),
        percent: result.percent.to_f64(),
        pass_percent: pass.map(Exact::to_f64),
        pass_words: pass.map(percent_words).unwrap_or_default(),
        stopped: !result.stopped_by.is_empty(),
        lack,
    }
}

/// The award with what decides it.
fn award_words(result: &Marking) -> String {
    let stop = result.stops.iter().find(|stop| stop.lifted.is_none());
    match (stop, result.award) {
        (_, Award::Undecided) => Award::Undecided.word().to_owned(),
        (Some(stop), _) => format!("stopped: {}", stop.why),
        (None, Award::Pass) => result
            .grade
            .clone()
            .unwrap_or_else(|| Award::Pass.word().to_owned()),
        (None, Award::NotYet) => format!("not yet, {} to pass", result.pass_mark),
        (None, award) => award.word().to_owned(),
    }
}
