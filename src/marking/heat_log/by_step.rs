//! Heats of single making steps.

use std::collections::BTreeMap;

use crate::marking::Facts;
use crate::rubric::Rubric;

use super::tally::whole;
use super::taps::{HeatLog, What};
use super::timeline::timeline;

impl Facts {
    /// Heats by the id of the making step that they were spent on, under `None` those of no step.
    /// A step that is not there was not counted.
    ///
    /// Taps count before figures entered afterwards, as they do for a tally. Where somebody watched
    /// all along and named steps, each step of the rubric was counted, those without a heat too;
    /// where nobody named one, all that is known is how many heats there were.
    pub fn heats_by_step(&self, rubric: &Rubric) -> BTreeMap<Option<String>, u32> {
        let tapped = tapped(&self.heat_log, rubric);
        tapped.unwrap_or_else(|| entered(&self.heat_log))
    }
}

/// `None` where heats may have been missed, or nobody tapped any.
fn tapped(log: &HeatLog, rubric: &Rubric) -> Option<BTreeMap<Option<String>, u32>> {
    let timeline = timeline(log, &log.parts(rubric));
    let all = timeline.heats.known()?;
    let names_step = |what: &What| matches!(what, What::Step { .. });
    let mut counted = BTreeMap::new();
    if log.taps.iter().any(|tap| names_step(&tap.what)) {
        let steps = rubric.steps.iter();
        counted.extend(steps.map(|step| (Some(step.id.clone()), 0)));
        let steps = timeline.steps.into_iter();
        counted.extend(steps.map(|time| (Some(time.step), time.heats)));
    }
    let of_steps: u32 = counted.values().sum();
    let of_none = all.saturating_sub(of_steps);
    counted.extend((of_none > 0).then_some((None, of_none)));
    Some(counted)
}

/// What was not entered, or cannot be read, was not counted.
fn entered(log: &HeatLog) -> BTreeMap<Option<String>, u32> {
    let heats = log.afterwards.iter().flat_map(|entered| &entered.heats);
    let read = heats.filter_map(|(step, text)| {
        let step = (!step.is_empty()).then(|| step.clone());
        Some((step, whole(text)?))
    });
    read.collect()
}
