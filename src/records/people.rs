use serde::{Deserialize, Serialize};

use super::ids::{ExaminerId, LearnerId, SittingId};
use super::release::Release;
use super::stamp::Stamp;
use crate::quantity::{Day, Moment};

/// How far a learner is.
#[derive(
    Debug, Clone, Copy, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize,
)]
#[serde(rename_all = "kebab-case")]
pub enum LearnerStatus {
    /// Learns.
    #[default]
    Learning,
    /// Will go on later.
    Paused,
    /// Has done all of it.
    Completed,
    /// Went before the end.
    Left,
}

impl LearnerStatus {
    /// Every status, in the order in which they are offered.
    pub const ALL: [Self; 4] = [Self::Learning, Self::Paused, Self::Completed, Self::Left];

    /// The status in a word.
    pub fn word(self) -> &'static str {
        match self {
            Self::Learning => "learning",
            Self::Paused => "paused",
            Self::Completed => "completed",
            Self::Left => "left",
        }
    }

    /// Whether nothing more is to come.
    pub fn is_over(self) -> bool {
        matches!(self, Self::Completed | Self::Left)
    }
}

/// A number that some other place knows a learner by.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct OutsideNumber {
    /// Who gave it: an awarding body, a register. Empty where nobody has said.
    pub by: String,
    /// The number.
    pub number: String,
}

/// What stands in the place of a name that was erased.
pub const NAME_ERASED: &str = "name erased";

/// A person who makes pieces.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Learner {
    /// Its id.
    pub id: LearnerId,
    /// Last written.
    pub stamp: Stamp,
    /// As written on sheets.
    pub name: String,
    /// The number that tells people of one name apart, if any.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub given_number: Option<String>,
    /// Numbers that other places gave.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub outside_numbers: Vec<OutsideNumber>,
    /// Who employs the learner, if anybody.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub employer: Option<String>,
    /// When the training began.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub started: Option<Day>,
    /// When it is to end.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub planned_end: Option<Day>,
    /// How far the learner is.
    pub status: LearnerStatus,
    /// When the name and all that was known of the learner were erased.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub erased: Option<Moment>,
}

impl Learner {
    /// Somebody of whom nothing but the name is known.
    pub fn named(id: LearnerId, stamp: Stamp, name: String) -> Self {
        Self {
            id,
            stamp,
            name,
            given_number: None,
            outside_numbers: Vec::new(),
            employer: None,
            started: None,
            planned_end: None,
            status: LearnerStatus::Learning,
            erased: None,
        }
    }

    /// The same learner, of whom nothing is known any more.
    pub(crate) fn nameless(&self, stamp: Stamp, at: Moment) -> Self {
        Self {
            status: LearnerStatus::Left,
            erased: Some(at),
            ..Self::named(self.id, stamp, NAME_ERASED.to_owned())
        }
    }
}

/// A person who marks pieces.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Examiner {
    /// Its id.
    pub id: ExaminerId,
    /// Last written.
    pub stamp: Stamp,
    /// As written on sheets.
    pub name: String,
    /// When the name was erased.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub erased: Option<Moment>,
}

impl Examiner {
    /// Somebody called so.
    pub fn named(id: ExaminerId, stamp: Stamp, name: String) -> Self {
        Self {
            id,
            stamp,
            name,
            erased: None,
        }
    }
}

/// Why a piece was made.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum SittingKind {
    /// To learn.
    Practice,
    /// As in an exam, without its weight.
    Mock,
    /// For the award.
    Exam,
    /// Marked by the maker.
    SelfCheck,
}

impl SittingKind {
    /// Every kind, in the order in which they are offered.
    pub const ALL: [Self; 4] = [Self::Practice, Self::Mock, Self::Exam, Self::SelfCheck];

    /// The kind in a word.
    pub fn word(self) -> &'static str {
        match self {
            Self::Practice => "practice",
            Self::Mock => "mock",
            Self::Exam => "exam",
            Self::SelfCheck => "self-check",
        }
    }
}

/// An occasion on which pieces are made.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Sitting {
    /// Its id.
    pub id: SittingId,
    /// Last written.
    pub stamp: Stamp,
    /// Why pieces are made in it; in files `kind` is the record's own.
    #[serde(rename = "sitting_kind")]
    pub kind: SittingKind,
    /// When it is held.
    pub day: Day,
    /// What people call it; empty where kind and day say enough.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub name: String,
    /// When its marks were last released to learners.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub released: Option<Release>,
}
