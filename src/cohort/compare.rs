use std::collections::{BTreeMap, BTreeSet};

use super::person::{Cohort, Other, Person};
use super::rates::{LEAST_LEARNERS, PassRate, RATE_LEVEL, enough, makers, rate};
use super::spreads::{median, median_of_all};
use crate::figures::{Difference, Lacking, at_least, newcombe, welch};
use crate::quantity::Exact;
use crate::records::{LearnerId, SittingKind};

/// Of whom there are too few where two groups differ by fewer than [`LEAST_LEARNERS`].
pub const IN_ONE_ONLY: &str = "learners in one of both groups only";

/// Two groups side by side.
#[derive(Debug, Clone, PartialEq)]
pub struct Comparison {
    /// All marks together.
    pub total: Compared,
    /// Each criterion, in the order of the columns.
    pub columns: Vec<Compared>,
    /// Pass rates by what pieces were made for.
    pub rates: Vec<ComparedRate>,
    /// How many learners are in both groups.
    pub in_both: usize,
}

/// Shares of the marks in two groups: for each learner the median of the latest pieces.
#[derive(Debug, Clone, PartialEq)]
pub struct Compared {
    /// The mean share over learners, here and there; nothing where it would tell of single
    /// people.
    pub means: [Option<f64>; 2],
    /// The mean here less that there; lacking where a mean is not told.
    pub difference: Result<Difference, Lacking>,
}

/// Pass rates of two groups for one purpose.
#[derive(Debug, Clone, PartialEq)]
pub struct ComparedRate {
    /// What the pieces were made for.
    pub sitting: SittingKind,
    /// Here and there; nothing where it would tell of single people.
    pub rates: [Option<PassRate>; 2],
    /// The rate here less that there; lacking where a rate is not told.
    pub difference: Result<Difference, Lacking>,
}

/// The cohort beside the other group; `None` where none was asked for.
///
/// *Source:* [`welch`] for shares, each learner a number; [`newcombe`] for pass rates, each
/// piece one, as if those of one learner were no more alike than those of several. Learners
/// who are in both groups count in both.
pub fn compare(cohort: &Cohort) -> Option<Comparison> {
    let other = cohort.other.as_ref()?;
    let columns = 0..cohort.plan.columns.len();
    let share = |column: usize| move |person: &Person| Some(median(person, column)?.share);
    let total = |person: &Person| Some(median_of_all(person)?.share);
    let rates = SittingKind::ALL.map(|sitting| compared_rate(cohort, other, sitting));
    Some(Comparison {
        total: compared(cohort, other, &total),
        columns: columns
            .map(|column| compared(cohort, other, &share(column)))
            .collect(),
        rates: rates.into_iter().flatten().collect(),
        in_both: in_both(cohort, other),
    })
}

fn compared(cohort: &Cohort, other: &Other, share: &dyn Fn(&Person) -> Option<Exact>) -> Compared {
    let shares = [&cohort.people, &other.people].map(|people| shares_of(people, share));
    let told = told(
        &shares
            .each_ref()
            .map(|shares| shares.keys().copied().collect()),
    );
    let [here, there] = shares.map(|shares| shares.into_values().collect::<Vec<Exact>>());
    let mean = |shares: &[Exact]| Exact::mean(shares).map(Exact::to_f64);
    let numbers =
        |shares: &[Exact]| -> Vec<f64> { shares.iter().map(|share| share.to_f64()).collect() };
    Compared {
        means: [
            mean(&here).filter(|_| told.here),
            mean(&there).filter(|_| told.there),
        ],
        difference: told
            .difference
            .and_then(|()| welch(&numbers(&here), &numbers(&there), RATE_LEVEL)),
    }
}

fn shares_of(
    people: &[Person],
    share: &dyn Fn(&Person) -> Option<Exact>,
) -> BTreeMap<LearnerId, Exact> {
    let shares = people.iter();
    shares
        .filter_map(|person| Some((person.id, share(person)?)))
        .collect()
}

/// `None` where neither group made a piece for it.
fn compared_rate(cohort: &Cohort, other: &Other, sitting: SittingKind) -> Option<ComparedRate> {
    let groups = [&cohort.people, &other.people];
    let told = told(&groups.map(|people| makers(people, sitting)));
    let [here, there] = groups.map(|people| rate(people, sitting));
    let made = |rate: &PassRate| rate.of + rate.undecided > 0;
    let counts = |rate: &PassRate| (rate.passed, rate.of);
    (made(&here) || made(&there)).then(|| ComparedRate {
        sitting,
        difference: told
            .difference
            .and_then(|()| newcombe(counts(&here), counts(&there), RATE_LEVEL)),
        rates: [
            Some(here).filter(|_| told.here),
            Some(there).filter(|_| told.there),
        ],
    })
}

/// What may be told of two groups without telling of single people.
struct Told {
    here: bool,
    there: bool,
    difference: Result<(), Lacking>,
}

/// A group is told of from [`LEAST_LEARNERS`] people on. Of two that
/// share people, what sets them apart is those who are in one of them only: where these are
/// fewer, their marks could be worked out from both means, so only the first is told.
fn told([here, there]: &[BTreeSet<LearnerId>; 2]) -> Told {
    let sizes = [here, there].map(|group| enough(group.len()));
    let shared = here.intersection(there).count();
    let alone = [here, there].map(|group| group.len() - shared);
    let fewest = alone.into_iter().filter(|alone| *alone > 0).min();
    let apart = match fewest {
        Some(fewest) if shared > 0 => at_least(fewest, LEAST_LEARNERS, IN_ONE_ONLY),
        _ => Ok(()),
    };
    let [first, second] = sizes;
    Told {
        here: first.is_ok(),
        there: second.is_ok() && apart.is_ok(),
        difference: first.and(second).and(apart),
    }
}

fn in_both(cohort: &Cohort, other: &Other) -> usize {
    let here: BTreeSet<LearnerId> = cohort.people.iter().map(|person| person.id).collect();
    let there = other.people.iter();
    there.filter(|person| here.contains(&person.id)).count()
}
