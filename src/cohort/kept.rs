use std::collections::BTreeMap;

use super::group::Group;
use super::latest::Asked;
use super::person::Plan;
use crate::records::{LearnerId, Ledger};

/// What was worked out of learners one by one, for as long as it holds: marking all pieces
/// of a large group takes long, and most of them stay as they are.
///
/// *Invariant.* What is here is what would be worked out anew: it goes with the question,
/// with the rubric's versions, and with any record of its learner's pieces.
#[derive(Debug)]
pub struct Kept<T> {
    by: Option<(About, Ledger)>,
    of: BTreeMap<LearnerId, T>,
}

/// What all of it is about.
#[derive(Debug, PartialEq)]
struct About {
    /// Without groups: what a learner comes to is the same in each.
    asked: Asked,
    plan: Plan,
    /// Digests of the rubric's versions that can be marked by.
    versions: Vec<String>,
}

impl<T> Default for Kept<T> {
    fn default() -> Self {
        Self {
            by: None,
            of: BTreeMap::new(),
        }
    }
}

impl<T> Kept<T> {
    /// Turns to what is `asked` of a ledger by `plan`, and lets go of what does not hold
    /// there.
    pub fn turn_to(&mut self, ledger: &Ledger, asked: &Asked, plan: &Plan) {
        let versions = ledger.rubrics();
        let versions = versions.filter(|version| version.rubric_id == asked.rubric);
        let about = About {
            asked: Asked {
                group: Group::All,
                other: None,
                ..asked.clone()
            },
            plan: plan.clone(),
            versions: versions.map(|version| version.digest.clone()).collect(),
        };
        match &self.by {
            Some((old, seen)) if *old == about => {
                self.of.retain(|id, _| ledger.has_same_pieces(seen, *id));
            }
            _ => self.of.clear(),
        }
        self.by = Some((about, ledger.clone()));
    }

    /// That of a learner, where it is here.
    pub fn get(&self, learner: LearnerId) -> Option<&T> {
        self.of.get(&learner)
    }

    /// Keeps that of a learner, worked out of what was turned to last.
    pub fn put(&mut self, learner: LearnerId, found: T) {
        self.of.insert(learner, found);
    }
}
