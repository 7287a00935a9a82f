use serde::{Deserialize, Serialize};

use super::ids::{LearnerId, MilestoneId};
use super::stamp::Stamp;
use crate::quantity::{Day, Moment};

/// A short note on a day of a learner's training: what explains a step or a dip in marks.
///
/// The learner reads it. It is never deleted: one that is taken back is nowhere shown.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Milestone {
    /// Its id.
    pub id: MilestoneId,
    /// Last written.
    pub stamp: Stamp,
    /// Whose training it is about.
    pub learner: LearnerId,
    /// When it was.
    pub day: Day,
    /// What it was, in one line; empty once that is erased.
    pub text: String,
    /// Whether it was taken back.
    pub taken_back: bool,
    /// When its text was erased.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub erased: Option<Moment>,
}

impl Milestone {
    /// How many characters its text has at most.
    pub const MOST_CHARS: usize = 200;

    /// Whether pages and documents show it.
    pub fn is_shown(&self) -> bool {
        !self.taken_back && self.erased.is_none()
    }

    /// The same without its text, which was erased `at`.
    pub(crate) fn wordless(&self, at: Moment) -> Self {
        Self {
            text: String::new(),
            erased: Some(at),
            ..self.clone()
        }
    }
}
