//! What is typed of an instrument study.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};
use thiserror::Error;

use super::moment::Day;
use crate::quantity::Unit;

/// One cell of the grid, counted from 0.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Place {
    /// Which part.
    pub part: usize,
    /// Which operator.
    pub operator: usize,
    /// Which trial.
    pub trial: usize,
}

impl Place {
    /// The key of its reading in [`StudyFacts::readings`], counted from 1: `2.1.3` is part 2,
    /// operator 1, trial 3.
    #[must_use]
    pub fn key(self) -> String {
        format!("{}.{}.{}", self.part + 1, self.operator + 1, self.trial + 1)
    }
}

/// Something that is measured again and again.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct StudyPart {
    /// What it is called.
    pub name: String,
    /// Its known size, as typed.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub reference: Option<String>,
    /// Standard uncertainty of the known size, as typed.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub uncertainty: Option<String>,
}

/// Parts measured by operators in trials with one instrument, all as typed.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct StudyFacts {
    /// What the study is called.
    pub name: String,
    /// The short name of the ledger's instrument.
    pub instrument: String,
    /// When it was measured.
    pub day: Day,
    /// What a bare number is read in.
    pub unit: Unit,
    /// What is measured, in order.
    pub parts: Vec<StudyPart>,
    /// Who measures, in order; a letter or number is enough.
    pub operators: Vec<String>,
    /// How often each measures each part.
    pub trials: usize,
    /// Readings as typed, by [`Place::key`].
    pub readings: BTreeMap<String, String>,
    /// Anything else.
    pub note: String,
}

/// Why a study cannot be laid out.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Error)]
pub enum StudyFault {
    /// Too many or no parts.
    #[error("parts: there are {0}; give 1 to {most}", most = StudyFacts::MOST_PARTS)]
    Parts(usize),
    /// Too many or no operators.
    #[error("people: there are {0}; give 1 to {most}", most = StudyFacts::MOST_OPERATORS)]
    Operators(usize),
    /// A number of trials that says nothing, or too many.
    #[error("trials: {0} of each; give 2 to {most}", most = StudyFacts::MOST_TRIALS)]
    Trials(usize),
}

impl StudyFacts {
    /// How many parts a study has at most.
    pub const MOST_PARTS: usize = 20;
    /// How many operators a study has at most.
    pub const MOST_OPERATORS: usize = 8;
    /// How many trials a study has at most.
    pub const MOST_TRIALS: usize = 10;

    /// Whether the grid is one that can be filled in.
    ///
    /// # Errors
    ///
    /// [`StudyFault`]: what there is too much or too little of.
    pub fn check(&self) -> Result<(), StudyFault> {
        let (parts, operators) = (self.parts.len(), self.operators.len());
        if !(1..=Self::MOST_PARTS).contains(&parts) {
            return Err(StudyFault::Parts(parts));
        }
        if !(1..=Self::MOST_OPERATORS).contains(&operators) {
            return Err(StudyFault::Operators(operators));
        }
        if !(2..=Self::MOST_TRIALS).contains(&self.trials) {
            return Err(StudyFault::Trials(self.trials));
        }
        Ok(())
    }

    /// What is typed at a place; nothing where that is only spaces.
    #[must_use]
    pub fn reading(&self, place: Place) -> Option<&str> {
        let text = self.readings.get(&place.key())?.trim();
        (!text.is_empty()).then_some(text)
    }
}
