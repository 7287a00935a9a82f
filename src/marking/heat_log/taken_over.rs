use serde::{Deserialize, Serialize};

use crate::quantity::Moment;

use super::taps::{HeatLog, Tap, What};

/// That the first taps of a log were taken over from the log of another examiner's marking of the
/// same piece. Ids alone: names may have to be erased, and this stands under the seal.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct TakenOver {
    /// Id of the marking that they come from.
    pub marking: String,
    /// Id of the examiner who took them.
    pub examiner: String,
    /// When they were taken over.
    pub at: Moment,
    /// How many, from the first tap on.
    pub taps: u32,
}

impl HeatLog {
    /// The taps that say what happened, with their clocks. Faults and notes are what one examiner
    /// thought of it, and no other's to take over.
    pub fn observed(&self) -> Vec<Tap> {
        let taps = self.taps.iter();
        let observed = taps.filter(|tap| is_observed(&tap.what));
        observed.cloned().collect()
    }

    /// How many of its first taps were taken over.
    pub fn taken_over_taps(&self) -> usize {
        let taps = self.taken_over.as_ref().map_or(0, |taken| taken.taps);
        usize::try_from(taps).unwrap_or(usize::MAX)
    }
}

/// Whether it says what happened, and not what somebody thought of it.
pub fn is_observed(what: &What) -> bool {
    !matches!(what, What::Fault { .. } | What::Note { .. })
}
