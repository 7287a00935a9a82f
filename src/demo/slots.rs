//! Which readings an entry is about.

use crate::rubric::{Entry, Rubric};

/// Slots that the entry measures.
pub(super) fn measured(rubric: &Rubric, entry: &Entry<'_>) -> Vec<String> {
    let ids = entry.criterion.measured().into_iter();
    ids.map(|id| rubric.slot_id(entry, id)).collect()
}

/// Slots that its target and limits are worked out from.
pub(super) fn held_against(rubric: &Rubric, entry: &Entry<'_>) -> Vec<String> {
    let Some(scale) = entry.criterion.scale() else {
        return Vec::new();
    };
    let limits = scale.bands.iter().map(|band| &band.limits);
    let limits = limits.chain(&scale.stops_outside);
    let expressions = limits.flat_map(|limits| limits.expressions());
    let readings = scale.target.iter().chain(expressions);
    let readings = readings.flat_map(|expression| expression.readings());
    readings.map(|id| rubric.slot_id(entry, id)).collect()
}
