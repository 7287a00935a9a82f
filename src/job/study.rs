use serde::{Deserialize, Serialize};

use crate::records::StudyFacts;

/// An instrument study to be worked out.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct StudyWanted {
    /// What is typed of it.
    pub facts: StudyFacts,
    /// What its instrument is called.
    pub instrument: String,
}
