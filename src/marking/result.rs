use serde::{Deserialize, Serialize};

use crate::quantity::{Dimension, Exact, Marks};

use super::bands::{Bands, Reach};

/// What came of marking one piece.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Marking {
    /// Every criterion has its marks.
    pub complete: bool,
    /// Entries without marks yet.
    pub missing: Vec<String>,
    /// What was typed and cannot be used.
    pub problems: Vec<Problem>,
    /// Readings that are used and should be taken again.
    pub doubts: Vec<Problem>,
    /// Marks so far.
    pub marks: Marks,
    /// Marks that could be had from what has marks so far.
    pub marked_out_of: Marks,
    /// Marks that can be had in all.
    pub out_of: Marks,
    /// Marks in per cent of `out_of`, exactly.
    pub percent: Exact,
    /// Marks that pass.
    pub pass_mark: Marks,
    /// Pass, not yet, undecided or incomplete.
    pub award: Award,
    /// Why, in sentences.
    pub award_reasons: Vec<String>,
    /// Entries whose stop stands.
    pub stopped_by: Vec<String>,
    /// Every stop, lifted ones too.
    pub stops: Vec<Stop>,
    /// Entries that gave a warning, once for each.
    pub warnings: Vec<String>,
    /// Name of the grade reached.
    pub grade: Option<String>,
    /// Sections in order.
    pub sections: Vec<SectionResult>,
    /// Entries in order.
    pub criteria: Vec<CriterionResult>,
    /// Cause groups that gave marks back.
    pub charged_once: Vec<CauseResult>,
}

impl Marking {
    /// The result of one entry.
    pub fn criterion(&self, entry: &str) -> Option<&CriterionResult> {
        self.criteria.iter().find(|result| result.id == entry)
    }
}

/// What the marks come to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Award {
    /// The pass mark is reached and nothing stands against it.
    Pass,
    /// It is not.
    NotYet,
    /// The decision rule asks for another look.
    Undecided,
    /// Something has no marks yet.
    Incomplete,
}

impl Award {
    /// The word of files and pages.
    pub fn word(self) -> &'static str {
        match self {
            Self::Pass => "pass",
            Self::NotYet => "not yet",
            Self::Undecided => "undecided",
            Self::Incomplete => "incomplete",
        }
    }
}

/// Something typed that cannot be used, or is in doubt.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Problem {
    /// The entry or reading that it is about.
    pub id: String,
    /// What is wrong and how to mend it.
    pub message: String,
}

/// Something that stops the award.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Stop {
    /// The entry.
    pub entry: String,
    /// Why.
    pub why: String,
    /// Who set it aside and why, where somebody did.
    pub lifted: Option<(String, String)>,
}

/// The one state that an entry is in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ResultState {
    /// It has marks.
    Valued,
    /// It has none yet.
    Missing,
    /// The part was not made.
    NotMade,
    /// The examiner decides.
    CannotMeasure,
    /// It does not apply.
    NotApplicable,
}

impl ResultState {
    /// The word of files and pages.
    pub fn word(self) -> &'static str {
        match self {
            Self::Valued => "valued",
            Self::Missing => "missing",
            Self::NotMade => "not made",
            Self::CannotMeasure => "can't be measured",
            Self::NotApplicable => "not applicable",
        }
    }
}

/// What came of one entry.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CriterionResult {
    /// Entry id.
    pub id: String,
    /// State.
    pub state: ResultState,
    /// Marks, weight counted, cause groups counted; `None` while missing.
    pub marks: Option<Marks>,
    /// Most marks, weight counted; none where it does not apply and the total
    /// is rescaled.
    pub out_of: Marks,
    /// Why, in words.
    pub reason: String,
    /// What several readings come to, `difference 0.8 mm`; empty where one reading, or what
    /// was chosen, says it.
    pub value: String,
    /// The reason without what readings, value and marks say: `within 1.5 mm`.
    pub because: String,
    /// Faults seen: id and how often.
    pub faults: Vec<(String, u32)>,
    /// The bands it was held against, for a measured criterion.
    pub measured: Option<Measured>,
    /// Marks given back because one error is charged once.
    pub given_back: Marks,
}

impl CriterionResult {
    /// The share of what could be had that was given; `None` without marks, where it does
    /// not apply, and where nothing could be had.
    pub fn share(&self) -> Option<Exact> {
        let applies = self.state != ResultState::NotApplicable;
        self.marks.filter(|_| applies)?.0.over(self.out_of.0)
    }

    /// An entry without marks, with the reason.
    pub(super) fn without_marks(id: &str, reason: &str) -> Self {
        Self {
            id: id.to_owned(),
            state: ResultState::Missing,
            marks: None,
            out_of: Marks::ZERO,
            reason: reason.to_owned(),
            value: String::new(),
            because: reason.to_owned(),
            faults: Vec::new(),
            measured: None,
            given_back: Marks::ZERO,
        }
    }
}

/// A measured value on its bands.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Measured {
    /// What is measured.
    pub dimension: Dimension,
    /// Bands and target, worked out.
    pub bands: Bands,
    /// Where the value is: a point, or what an interval or verdict leaves open.
    pub value: Option<Reach>,
}

/// What came of one section.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SectionResult {
    /// Section id.
    pub id: String,
    /// Marks as they count in the total.
    pub marks: Marks,
    /// Marks that could be had from what has marks so far.
    pub marked_out_of: Marks,
    /// Marks that can be had.
    pub out_of: Marks,
    /// Least that is asked for.
    pub minimum: Option<Marks>,
    /// Whether the section's cap held marks back.
    pub capped: bool,
}

impl SectionResult {
    /// Whether the minimum is reached, or none is asked for.
    pub fn reaches_minimum(&self) -> bool {
        self.minimum.is_none_or(|least| self.marks >= least)
    }
}

/// What a cause group did.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CauseResult {
    /// Name for people.
    pub name: String,
    /// What its criteria lost together.
    pub lost: Marks,
    /// What was charged.
    pub charged: Marks,
}
