use serde::{Deserialize, Serialize};

use crate::marking::Facts;
use crate::progress::Numbers;

/// What takes long about one learner's pieces by one rubric, with all that it is worked out
/// from.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CourseWanted {
    /// The numbers: marks are worked out on the page, so that no records have to be sent.
    pub numbers: Numbers,
    /// The texts of the rubrics that pieces are weighed by, each once.
    pub rubrics: Vec<String>,
    /// For each piece of the course by which of these and from what its total is weighed;
    /// `None` of one that has no readings of its own.
    pub weighed: Vec<Option<(usize, Facts)>>,
}
