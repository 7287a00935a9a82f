use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use crate::rubric::Rubric;

use super::taps::HeatLog;

/// Heats planned for one part of the shoe.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PlannedPart {
    /// The part or the work.
    pub part: String,
    /// Making step of the rubric, where one fits.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub step: Option<String>,
    /// How many.
    pub count: u32,
    /// Whether they are welding heats.
    #[serde(default, skip_serializing_if = "super::taps::is_false")]
    pub weld: bool,
}

impl PlannedPart {
    /// The plan of a rubric.
    pub fn of(rubric: &Rubric) -> Vec<Self> {
        let heats = rubric.heats.iter();
        let parts = heats.map(|heats| Self {
            part: heats.part.clone(),
            step: heats.step.clone(),
            count: heats.count,
            weld: heats.weld,
        });
        parts.collect()
    }
}

impl HeatLog {
    /// The plan that counts: as it was changed for this piece, or else the rubric's.
    pub fn parts(&self, rubric: &Rubric) -> Vec<PlannedPart> {
        let own = self.plan.clone();
        own.unwrap_or_else(|| PlannedPart::of(rubric))
    }
}

/// What was entered when the piece was done, where nobody tapped; each as typed.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct Afterwards {
    /// Heats by making step; those of no step stand under an empty text.
    #[serde(skip_serializing_if = "BTreeMap::is_empty")]
    pub heats: BTreeMap<String, String>,
    /// Weld heats among them.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub weld_heats: Option<String>,
    /// From start to finish; pauses that are noted apart come off it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub time: Option<String>,
    /// Of that, at the fire.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub at_the_fire: Option<String>,
}
