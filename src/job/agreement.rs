use serde::{Deserialize, Serialize};

use crate::records::Day;
use crate::sheet::DayAsked;

/// How well examiners agree, with all that it is worked out from.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Agreed {
    /// The records, each as JSON: the pieces of one version of a rubric and what they name.
    pub records: Vec<String>,
    /// Digest of that version.
    pub rubric: String,
    /// The first day of sittings that count; none is the first there is.
    pub from: Option<Day>,
    /// The last one.
    pub to: Option<Day>,
    /// Whether names are hidden.
    pub hides_names: bool,
    /// A day to plan.
    pub day: DayAsked,
}
