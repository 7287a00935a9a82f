use std::collections::BTreeMap;

use super::chance::Chance;
use super::people::Profile;
use crate::quantity::Exact;
use crate::records::LearnerId;

/// A learner with what is known of the way so far.
pub(super) struct Learning {
    pub id: LearnerId,
    pub profile: &'static Profile,
    /// By making step, in thousandths over or under the learner's level.
    leaning: BTreeMap<String, i64>,
    /// Which of several faults is usual.
    pub habit: i64,
    /// Per cent of the last piece, by rubric.
    pub last: BTreeMap<usize, Exact>,
}

impl Learning {
    /// A learner at the first piece, who leans a little in each of `steps`.
    pub fn new(
        id: LearnerId,
        profile: &'static Profile,
        steps: &[String],
        mut chance: Chance,
    ) -> Self {
        let leaning = steps
            .iter()
            .map(|step| (step.clone(), chance.bell() * 7 / 100));
        Self {
            id,
            profile,
            leaning: leaning.collect(),
            habit: chance.below(60),
            last: BTreeMap::new(),
        }
    }

    /// Skill in one step at the `piece`-th piece, in thousandths: where a learner is weak
    /// at first, practice evens it out by half.
    pub fn skill(&self, step: Option<&str>, piece: i64) -> i64 {
        let leaning = step.and_then(|step| self.leaning.get(step)).copied();
        let done = 1000 * piece / (self.profile.pieces - 1).max(1);
        self.profile.level(piece) + leaning.unwrap_or(0) * (2000 - done) / 2000
    }
}
