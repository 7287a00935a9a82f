use std::collections::BTreeMap;

use super::made::{Made, Series};
use super::practice::LATEST;
use crate::marking::{Marking as Outcome, ResultState};
use crate::quantity::{Exact, Marks};
use crate::rubric::{Entry, Rubric};

/// What one making step costs.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StepLoss {
    /// The step's id; `None` for criteria that name no step.
    pub step: Option<String>,
    /// Its name; `None` alike.
    pub name: Option<String>,
    /// Marks lost a piece, the mean of the latest pieces.
    pub latest: Marks,
    /// The same of all pieces before those; `None` where there are none.
    pub before: Option<Marks>,
}

/// Marks that one piece lost, by the id of the making step that its criterion names, or
/// else a fault that was seen; under `None` those that name none.
///
/// They are marks of the total: where a section's marks are scaled to a weight or held
/// by a cap, so is what was lost in it.
pub fn lost_by_step(made: &Made<'_>) -> BTreeMap<Option<String>, Marks> {
    steps_lost(&made.rubric, &made.outcome)
}

/// The same of what some facts come to by a rubric.
pub fn steps_lost(rubric: &Rubric, outcome: &Outcome) -> BTreeMap<Option<String>, Marks> {
    let mut lost: BTreeMap<Option<String>, Marks> = BTreeMap::new();
    for entry in rubric.entries() {
        if let Some(marks) = lost_in(rubric, outcome, &entry) {
            let sum = lost.entry(step_of(outcome, &entry)).or_insert(Marks::ZERO);
            *sum = sum.plus(marks).unwrap_or(*sum);
        }
    }
    lost
}

fn step_of(outcome: &Outcome, entry: &Entry<'_>) -> Option<String> {
    let criterion = entry.criterion;
    let by_fault = || {
        let seen = &outcome.criterion(&entry.id)?.faults;
        let faults = criterion.faults.iter();
        let mut faults = faults.filter(|fault| seen.iter().any(|(id, _)| *id == fault.id));
        faults.find_map(|fault| fault.step.clone())
    };
    criterion.step.clone().or_else(by_fault)
}

/// What an entry lost, in marks of the total; `None` where it has no marks or does not
/// apply.
pub(super) fn lost_of_total(made: &Made<'_>, entry: &Entry<'_>) -> Option<Marks> {
    lost_in(&made.rubric, &made.outcome, entry)
}

fn lost_in(rubric: &Rubric, outcome: &Outcome, entry: &Entry<'_>) -> Option<Marks> {
    let result = outcome.criterion(&entry.id)?;
    if result.state == ResultState::NotApplicable {
        return None;
    }
    let lost = result.out_of.minus(result.marks?)?;
    // What one mark of the section counts in the total.
    let totals = rubric.section_totals(entry.section)?;
    lost.times(totals.counted.0.over(totals.sum.0)?)
}

/// What each step of the rubric as the latest piece was marked by it costs, in the order
/// of the making; steps that never cost anything are left out. Pieces that were not
/// marked as a whole are left out too.
pub fn losses_by_step(series: &Series<'_>) -> Vec<StepLoss> {
    let whole: Vec<_> = series
        .pieces
        .iter()
        .filter(|made| made.is_whole())
        .map(|made| lost_by_step(made))
        .collect();
    let (before, latest) = whole.split_at(whole.len().saturating_sub(LATEST));
    let Some(rubric) = series.rubric() else {
        return Vec::new();
    };
    let steps = rubric.steps.iter().map(|step| Some(&step.id));
    let losses = steps.chain([None]).filter_map(|id| {
        let id = id.cloned();
        let loss = StepLoss {
            latest: mean(latest, &id)?,
            before: mean(before, &id),
            name: id
                .as_ref()
                .and_then(|id| Some(rubric.step(id)?.name.clone())),
            step: id,
        };
        let is_any = loss.latest > Marks::ZERO || loss.before.is_some_and(|b| b > Marks::ZERO);
        is_any.then_some(loss)
    });
    losses.collect()
}

fn mean(pieces: &[BTreeMap<Option<String>, Marks>], step: &Option<String>) -> Option<Marks> {
    let of = |lost: &BTreeMap<Option<String>, Marks>| lost.get(step).map_or(Exact::ZERO, |m| m.0);
    let all: Vec<Exact> = pieces.iter().map(of).collect();
    Exact::mean(&all).map(Marks)
}
