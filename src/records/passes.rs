use std::collections::BTreeMap;
use std::sync::{Arc, Mutex, PoisonError};

use super::ids::MarkingId;
use super::marking::Marking;
use super::stamp::Stamp;
use crate::conformity::{PassChance, pass_chance};
use crate::rubric::Rubric;

/// How probable a pass is by the sealed markings that were asked for. A guarded rubric
/// decides by it wherever an award is shown, and a sealed marking never changes, so each is
/// worked out once.
#[derive(Debug, Clone, Default)]
pub(super) struct Passes(Arc<Mutex<BTreeMap<Known, PassChance>>>);

/// A marking as it was written last, with the digest of its rubric.
type Known = (MarkingId, Stamp, String);

impl Passes {
    /// That of a marking, marked by `rubric`.
    pub fn of(&self, marking: &Marking, rubric: &Rubric) -> PassChance {
        if marking.seal.is_none() {
            return pass_chance(rubric, &marking.facts);
        }
        let key = (marking.id, marking.stamp.clone(), marking.rubric.clone());
        // Nothing is done under the lock that could leave it half done.
        let mut known = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        let known = known.entry(key);
        *known.or_insert_with(|| pass_chance(rubric, &marking.facts))
    }
}

/// What is worked out already makes no difference between two ledgers.
impl PartialEq for Passes {
    fn eq(&self, _: &Self) -> bool {
        true
    }
}

impl Eq for Passes {}
