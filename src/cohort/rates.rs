use std::collections::BTreeSet;

use super::person::{Cohort, Person, Worked};
use crate::figures::{Interval, Lacking, at_least, wilson};
use crate::marking::Award;
use crate::quantity::Exact;
use crate::records::{LearnerId, SittingKind};

/// Of fewer learners nothing is told of a group: a figure would tell of single people. Our
/// own rule, as the design of the page has it.
pub const LEAST_LEARNERS: usize = 5;
/// The level of the interval of a pass rate.
pub const RATE_LEVEL: f64 = 0.95;

/// How many pieces made for one purpose pass.
#[derive(Debug, Clone, PartialEq)]
pub struct PassRate {
    /// What they were made for.
    pub sitting: SittingKind,
    /// How many pass.
    pub passed: usize,
    /// How many are decided.
    pub of: usize,
    /// How many learners made them.
    pub learners: usize,
    /// How many are not decided: not whole, undecided, or waiting for an examiner.
    pub undecided: usize,
    /// Wilson's interval of the share; lacking of too few learners or pieces. Where it
    /// lacks, none of these numbers is to be shown.
    pub interval: Result<Interval, Lacking>,
}

impl PassRate {
    /// The share of those decided that pass; 0 of none.
    pub fn share(&self) -> f64 {
        let whole = |count: usize| i128::try_from(count).ok().map(Exact::whole);
        let share = whole(self.passed).zip(whole(self.of));
        let share = share.and_then(|(passed, of)| passed.over(of));
        share.map_or(0.0, Exact::to_f64)
    }
}

/// Pass rates by what pieces were made for, in the order in which purposes are offered;
/// purposes without a piece are left out.
///
/// *Source:* [`wilson`]. The pieces of one learner are more alike than those of several, which
/// the interval does not know.
pub fn pass_rates(cohort: &Cohort) -> Vec<PassRate> {
    let rates = SittingKind::ALL.map(|sitting| rate(&cohort.people, sitting));
    rates
        .into_iter()
        .filter(|rate| rate.of + rate.undecided > 0)
        .collect()
}

/// The pass rate of pieces that these people made for one purpose.
pub(super) fn rate(people: &[Person], sitting: SittingKind) -> PassRate {
    let pieces = people.iter().flat_map(|person| &person.pieces);
    let of_kind = pieces.filter(|piece| piece.sitting == sitting);
    let decided = of_kind.clone().filter(|piece| is_decided(piece));
    let of = decided.clone().count();
    let passed = decided.filter(|piece| piece.award == Award::Pass).count();
    let learners = makers(people, sitting).len();
    PassRate {
        sitting,
        passed,
        of,
        learners,
        undecided: of_kind.count() - of,
        interval: enough(learners).and_then(|()| wilson(passed, of, RATE_LEVEL)),
    }
}

/// Who made a piece for this purpose that is decided.
pub(super) fn makers(people: &[Person], sitting: SittingKind) -> BTreeSet<LearnerId> {
    let made = |piece: &Worked| piece.sitting == sitting && is_decided(piece);
    let makers = people.iter();
    makers
        .filter(|person| person.pieces.iter().any(made))
        .map(|person| person.id)
        .collect()
}

fn is_decided(piece: &Worked) -> bool {
    matches!(piece.award, Award::Pass | Award::NotYet)
}

/// Whether there are enough learners for anything to be told of the group.
pub(super) fn enough(learners: usize) -> Result<(), Lacking> {
    at_least(learners, LEAST_LEARNERS, "learners")
}
