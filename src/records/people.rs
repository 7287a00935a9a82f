use serde::{Deserialize, Serialize};

use super::ids::{ExaminerId, LearnerId, SittingId};
use super::moment::Day;
use super::stamp::Stamp;

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
    /// The number that a college or awarding body gave, if any.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub given_number: Option<String>,
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
}
