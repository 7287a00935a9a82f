use std::collections::BTreeSet;

use super::person::{Cohort, Other, Person};
use super::rates::{PassRate, RATE_LEVEL, enough, rate};
use super::spreads::{median, median_of_all};
use crate::figures::{Difference, Lacking, newcombe, welch};
use crate::quantity::Exact;
use crate::records::{LearnerId, SittingKind};

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
    /// How many learners have such a share, here and there.
    pub learners: [usize; 2],
    /// The mean share over learners, here and there; 0 where nobody has one.
    pub means: [f64; 2],
    /// The mean here less that there; lacking of too few learners on a side. Where it lacks,
    /// no number of a side with too few is to be shown.
    pub difference: Result<Difference, Lacking>,
}

/// Pass rates of two groups for one purpose.
#[derive(Debug, Clone, PartialEq)]
pub struct ComparedRate {
    /// Here and there.
    pub rates: [PassRate; 2],
    /// The rate here less that there; lacking of too few learners on a side.
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
    let shares = |people: &[Person]| people.iter().filter_map(share).collect::<Vec<Exact>>();
    let (here, there) = (shares(&cohort.people), shares(&other.people));
    let mean = |shares: &[Exact]| Exact::mean(shares).map_or(0.0, Exact::to_f64);
    let numbers = |shares: &[Exact]| {
        shares
            .iter()
            .map(|share| share.to_f64())
            .collect::<Vec<_>>()
    };
    let difference = enough(here.len().min(there.len()));
    Compared {
        learners: [here.len(), there.len()],
        means: [mean(&here), mean(&there)],
        difference: difference.and_then(|()| welch(&numbers(&here), &numbers(&there), RATE_LEVEL)),
    }
}

/// `None` where neither group made a piece for it.
fn compared_rate(cohort: &Cohort, other: &Other, sitting: SittingKind) -> Option<ComparedRate> {
    let rates = [&cohort.people, &other.people].map(|people| rate(people, sitting));
    let [here, there] = &rates;
    let made = |rate: &PassRate| rate.of + rate.undecided > 0;
    let difference = enough(here.learners.min(there.learners));
    let counts = |rate: &PassRate| (rate.passed, rate.of);
    let difference = difference.and_then(|()| newcombe(counts(here), counts(there), RATE_LEVEL));
    (made(here) || made(there)).then_some(ComparedRate { rates, difference })
}

fn in_both(cohort: &Cohort, other: &Other) -> usize {
    let here: BTreeSet<LearnerId> = cohort.people.iter().map(|person| person.id).collect();
    let there = other.people.iter();
    there.filter(|person| here.contains(&person.id)).count()
}
