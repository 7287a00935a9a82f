use thiserror::Error;

use crate::marking::Facts;
use crate::quantity::Marks;
use crate::rubric::Rubric;

use super::certainty::{
    AwardCertainty, Certainty, CriterionCertainty, MarksChance, Method, SectionCertainty,
};
use super::cluster::clusters;
use super::decide::decide;
use super::draws::DRAWS;
use super::entry::MeasuredEntry;
use super::scales::{Parts, Scales};
use super::settle::settle;
use super::solve::{By, Solved, Task};
use super::total::Whole;
use super::units::Unit;
use super::value::uncertain;
use super::variable::Variables;
use super::weighing::{Weighing, chances, task};

/// Below this probability of the marks given, a criterion is a close call.
const SURE: f64 = 0.95;
/// Above this probability to change the award or a minimum, a close call is decisive.
const DECIDES: f64 = 0.025;

/// Units are taken apart together as far as their states come to so many.
const MOST_PLACES: usize = 500_000;

/// Why it cannot be said how sure a marking is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Error)]
pub enum NotWeighed {
    /// Marks with too many different fractions, or criteria that can come out in too many
    /// ways together.
    #[error(
        "the marks of this rubric combine in too many ways to say how sure they are; the marks \
         themselves stand"
    )]
    TooMany,
}

/// How sure the marks of `facts` by `rubric` are, as far as measuring goes.
///
/// *Formulas:* a reading is normal about its best estimate, an interval reading even
/// between its ends and then normal (JCGM 100:2008, 4.3; JCGM 106:2012, 7.2); the
/// probability of a band is that of the value lying in it (JCGM 106:2012, 7.3 and 7.4).
/// Totals are convolved where criteria share nothing; over one or two shared parts the
/// convolution is integrated; past that it is drawn, 200,000 times from a fixed seed
/// (JCGM 101:2008). *Errors:* [`NotWeighed`].
pub fn weigh(rubric: &Rubric, facts: &Facts) -> Result<Certainty, NotWeighed> {
    let scales = Scales::of(rubric, facts);
    let certainty = |scales: Scales<'_>| {
        by_any_means(&scales, &|weighing, whole| {
            certainty(&scales, weighing, whole)
        })
    };
    scales.and_then(certainty).ok_or(NotWeighed::TooMany)
}

/// The probability of a pass; `None` while something has no marks.
pub type PassChance = Result<Option<f64>, NotWeighed>;

/// The probability of a pass, and nothing else of [`weigh`]. *Errors:* [`NotWeighed`].
pub fn pass_chance(rubric: &Rubric, facts: &Facts) -> PassChance {
    let scales = Scales::of(rubric, facts).ok_or(NotWeighed::TooMany)?;
    if !scales.outcome.complete {
        return Ok(None);
    }
    let pass = by_any_means(&scales, &|_, whole| Some(whole.pass()));
    pass.map(Some).ok_or(NotWeighed::TooMany)
}

/// What `find` finds in a marking worked out; where its clusters can come to too many sums
/// together, all of them are drawn at once.
fn by_any_means<T>(
    scales: &Scales<'_>,
    find: &dyn Fn(&Weighing<'_>, &Whole<'_>) -> Option<T>,
) -> Option<T> {
    let parts = scales.parts()?;
    let found = |parts: &Parts| {
        let weighing = Weighing::of(scales, parts)?;
        find(&weighing, &weighing.whole()?)
    };
    found(&parts).or_else(|| found(&parts.wide()))
}

fn certainty(scales: &Scales<'_>, weighing: &Weighing<'_>, whole: &Whole<'_>) -> Option<Certainty> {
    let mut criteria = Vec::new();
    for cluster in 0..weighing.tasks.len() {
        criteria.extend(of_cluster(scales, weighing, whole, cluster)?);
    }
    criteria.sort_by_key(|(index, _)| *index);
    let total = whole.totals();
    let expected: f64 = total
        .iter()
        .map(|(marks, chance)| marks.0.to_f64() * chance)
        .sum();
    let square = |(marks, chance): &(Marks, f64)| (marks.0.to_f64() - expected).powi(2) * chance;
    Some(Certainty {
        method: method(&weighing.solved),
        criteria: criteria.into_iter().map(|(_, found)| found).collect(),
        sections: sections(scales, whole),
        expected,
        deviation: total.iter().map(square).sum::<f64>().sqrt(),
        total: total.into_iter().map(chance).collect(),
        given: scales.outcome.marks,
        award: award(scales, whole, &weighing.solved)?,
        unstated: scales.variables.unstated.clone(),
    })
}

/// How sure the entries of a cluster are, each with its index.
fn of_cluster(
    scales: &Scales<'_>,
    weighing: &Weighing<'_>,
    whole: &Whole<'_>,
    cluster: usize,
) -> Option<Vec<(usize, CriterionCertainty)>> {
    let (task, keys) = (weighing.tasks.get(cluster)?, weighing.keys.get(cluster)?);
    let solved = weighing.solved.get(cluster)?;
    let mut found = Vec::new();
    for place in 0..task.entries.len() {
        found.push(criterion(scales, task, solved, place)?);
    }
    let close = found.iter().enumerate();
    let close = close.filter(|(_, (_, criterion))| criterion.is_close);
    let close = close.map(|(place, _)| Some((place, task.member(place)?.0)));
    let close: Vec<(usize, usize)> = close.collect::<Option<_>>()?;
    if !scales.outcome.complete {
        return Some(found);
    }
    let at_once = (MOST_PLACES / solved.states.iter().count().max(1)).max(1);
    for close in close.chunks(at_once) {
        let units: Vec<usize> = close.iter().map(|(_, unit)| *unit).collect();
        let apart = task.apart(&solved.by, keys, &units)?;
        for (place, unit) in close {
            let (keys, apart) = (keys.get(*unit)?, apart.get(unit)?);
            let (_, criterion) = found.get_mut(*place)?;
            criterion.changes = whole.differs(cluster, keys, apart, &task.given_ways(*place)?)?;
            criterion.is_decisive = criterion.changes > DECIDES;
        }
    }
    Some(found)
}

/// How sure the entry at `place` of a cluster is by itself, with its index.
fn criterion(
    scales: &Scales<'_>,
    task: &Task<'_>,
    solved: &Solved,
    place: usize,
) -> Option<(usize, CriterionCertainty)> {
    let index = *task.cluster.entries.get(place)?;
    let (entry, measured) = (scales.entries.get(index)?, *task.entries.get(place)?);
    let chances = chances(scales, task, &solved.ways, place)?;
    let given = scales.given(entry)?;
    let probability = chances.iter().find(|(marks, _)| *marks == given);
    let probability = probability.map_or(0.0, |(_, chance)| *chance);
    let is_close = probability < SURE;
    let settle = if is_close {
        let unit = task.unit_of(place)?;
        let then = |variables: &Variables| alone(scales, index, given, unit, variables);
        settle(scales, entry, measured, probability, &then)
    } else {
        None
    };
    let found = CriterionCertainty {
        entry: entry.id.clone(),
        value: uncertain(&measured.value, &scales.variables),
        given,
        probability,
        chances: chances.into_iter().map(chance).collect(),
        is_close,
        changes: 0.0,
        is_decisive: false,
        settle,
    };
    Some((index, found))
}

/// The probability of so many marks of an entry with these readings, its unit by itself.
fn alone(
    scales: &Scales<'_>,
    index: usize,
    given: Marks,
    unit: &Unit,
    variables: &Variables,
) -> Option<f64> {
    let members = unit.members.iter();
    let measured = members.filter_map(|index| Some((*index, scales.measured(*index)?)));
    let measured: Vec<(usize, &MeasuredEntry)> = measured.collect();
    let clusters = clusters(&measured, std::slice::from_ref(&unit.members), variables);
    let mut holding = clusters.iter();
    let cluster = holding.find(|cluster| cluster.entries.contains(&index))?;
    let task = task(scales, cluster, std::slice::from_ref(unit), variables);
    let place = cluster.entries.iter().position(|known| *known == index)?;
    let chances = chances(scales, &task, &task.ways(), place)?;
    let same = chances.iter().find(|(marks, _)| *marks == given);
    Some(same.map_or(0.0, |(_, chance)| *chance))
}

fn sections(scales: &Scales<'_>, whole: &Whole<'_>) -> Vec<SectionCertainty> {
    let sections = scales.outcome.sections.iter().enumerate();
    sections
        .filter_map(|(at, section)| {
            Some(SectionCertainty {
                section: section.id.clone(),
                minimum: section.minimum?,
                is_reached: section.reaches_minimum(),
                probability: whole.reaches(at),
            })
        })
        .collect()
}

/// `Some(None)` while something has no marks; `None` on overflow.
fn award(
    scales: &Scales<'_>,
    whole: &Whole<'_>,
    solved: &[Solved],
) -> Option<Option<AwardCertainty>> {
    if !scales.outcome.complete {
        return Some(None);
    }
    let pass = whole.pass();
    let drawn = solved.iter().enumerate();
    let drawn = drawn.filter(|(_, solved)| matches!(solved.by, By::Draws(_)));
    let mut variance = None;
    for (at, _) in drawn {
        variance = Some(variance.unwrap_or(0.0) + whole.variance(at)?);
    }
    let best = scales.outcome.award;
    Some(Some(AwardCertainty {
        best,
        decided: decide(scales.rubric.award.decision, best, pass),
        pass,
        standard_error: variance.map(|variance| (variance / f64::from(DRAWS)).sqrt()),
    }))
}

fn chance((marks, probability): (Marks, f64)) -> MarksChance {
    MarksChance { marks, probability }
}

fn method(solved: &[Solved]) -> Method {
    let drawn = solved
        .iter()
        .any(|solved| matches!(solved.by, By::Draws(_)));
    let single = |solved: &Solved| matches!(&solved.by, By::Closed(plan) if plan.is_single());
    if drawn {
        Method::Draws(DRAWS)
    } else if solved.iter().all(single) {
        Method::Exact
    } else {
        Method::Quadrature
    }
}
