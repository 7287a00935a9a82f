use std::collections::BTreeMap;

use super::made::Series;
use super::practice::LATEST;
use super::steps::{StepLoss, losses_by_step};
use crate::quantity::Exact;

/// Heats spent on one making step, with what it costs.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StepHeats {
    /// The step's name; `None` for heats and marks of no step.
    pub name: Option<String>,
    /// Heats of each piece that was marked as a whole, in their order; `None` where they were
    /// not counted.
    pub points: Vec<Option<u32>>,
    /// Those of the latest pieces.
    pub latest: HeatsSpent,
    /// Those of all pieces before; `None` where there are none.
    pub before: Option<HeatsSpent>,
    /// Marks lost by it in the same pieces; `None` where it never cost any.
    pub lost: Option<StepLoss>,
}

/// Heats of a step over some pieces.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct HeatsSpent {
    /// Heats a piece, the mean of those where they were counted; `None` where in none.
    pub mean: Option<Exact>,
    /// In how many pieces they were counted.
    pub counted: usize,
    /// Of how many.
    pub pieces: usize,
}

impl HeatsSpent {
    fn of(points: &[Option<u32>]) -> Self {
        let heats = points.iter().flatten();
        let heats: Vec<_> = heats.map(|heats| Exact::whole((*heats).into())).collect();
        Self {
            mean: Exact::mean(&heats).filter(|_| !heats.is_empty()),
            counted: heats.len(),
            pieces: points.len(),
        }
    }
}

/// Heats of each step of the rubric as the latest piece was marked by it, in the order of the
/// making, over the pieces that [`losses_by_step`] takes; steps on which no heat was spent and
/// that cost nothing are left out. None where no heats were counted by anybody.
pub fn heats_by_step(series: &Series<'_>) -> Vec<StepHeats> {
    let whole = series.pieces.iter().filter(|made| made.is_whole());
    let pieces: Vec<BTreeMap<_, _>> = whole
        .map(|made| made.facts.heats_by_step(&made.rubric))
        .collect();
    let Some(rubric) = series.rubric() else {
        return Vec::new();
    };
    if pieces.iter().all(BTreeMap::is_empty) {
        return Vec::new();
    }
    let losses = losses_by_step(series);
    let steps = rubric.steps.iter().map(|step| Some(step.id.clone()));
    let all = steps.chain([None]).filter_map(|step| {
        let points = pieces.iter().map(|heats| heats.get(&step).copied());
        let points: Vec<_> = points.collect();
        let lost = losses.iter().find(|loss| loss.step == step).cloned();
        let is_any = lost.is_some() || points.iter().flatten().any(|heats| *heats > 0);
        let name = step.and_then(|id| Some(rubric.step(&id)?.name.clone()));
        is_any.then(|| spent(name, points, lost))
    });
    all.collect()
}

fn spent(name: Option<String>, points: Vec<Option<u32>>, lost: Option<StepLoss>) -> StepHeats {
    let (before, latest) = points.split_at(points.len().saturating_sub(LATEST));
    StepHeats {
        latest: HeatsSpent::of(latest),
        before: (!before.is_empty()).then(|| HeatsSpent::of(before)),
        name,
        lost,
        points,
    }
}
