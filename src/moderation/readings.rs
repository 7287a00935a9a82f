//! Whether two examiners who measure one place read the same.

use super::LEVEL;
use super::blind::{By, Gathered};
use super::pairs::{PairLimits, pair_limits};
use super::totals::enough;
use crate::figures::Lacking;
use crate::figures::agreement::{Within, within};
use crate::marking::{Measured, read_fact};
use crate::quantity::{Dimension, Exact, Reading};
use crate::rubric::{Entry, Rubric, Scale, Slot};

/// What the readings of one criterion come to, in the usual unit of its dimension.
#[derive(Debug, Clone, PartialEq)]
pub struct ReadingFigures {
    /// What is measured.
    pub dimension: Dimension,
    /// How many pieces two examiners measured with a value each.
    pub pieces: usize,
    /// How examiners scatter about the mean of a piece: reproducibility.
    pub between: Result<Within, Lacking>,
    /// How repeats of one examiner scatter: repeatability. Of series and of readings at
    /// several places there are none.
    pub repeats: Result<Within, Lacking>,
    /// How far the best band reaches from end to end, where it has two ends; the narrowest
    /// where that differs from piece to piece.
    pub width: Option<f64>,
    /// Pairs of examiners with enough pieces in common.
    pub pairs: Vec<PairLimits>,
}

pub(super) fn readings(
    gathered: &Gathered<'_>,
    entry: &Entry<'_>,
    scale: &Scale,
) -> ReadingFigures {
    let dimension = scale.dimension;
    let value = |by: &By<'_>| in_usual_unit(dimension, value_of(by, entry)?);
    let rows = gathered.filled_rows(value);
    let groups: Vec<Vec<f64>> = rows
        .iter()
        .map(|row| row.iter().copied().flatten().collect())
        .collect();
    let all = gathered.twice.iter().flat_map(|seen| &seen.by);
    let widths = all.filter_map(|by| width(measured(by, entry)?)).min();
    ReadingFigures {
        dimension,
        pieces: rows.len(),
        between: enough(rows.len()).and_then(|()| within(&groups, LEVEL)),
        repeats: repeats(gathered, entry),
        width: widths.and_then(|width| in_usual_unit(dimension, width)),
        pairs: pair_limits(gathered, value),
    }
}

fn measured<'a>(by: &'a By<'_>, entry: &Entry<'_>) -> Option<&'a Measured> {
    by.outcome.criterion(&entry.id)?.measured.as_ref()
}

/// The value that was held against the bands, where it is one value.
fn value_of(by: &By<'_>, entry: &Entry<'_>) -> Option<Exact> {
    measured(by, entry)?.value?.single()
}

fn width(measured: &Measured) -> Option<Exact> {
    let best = measured.bands.bands.first()?.reach;
    best.high?.minus(best.low?)
}

fn in_usual_unit(dimension: Dimension, base: Exact) -> Option<f64> {
    Some(base.over(dimension.usual_unit().in_base())?.to_f64())
}

/// Repeats of the readings that the criterion takes, each marking and place a group.
fn repeats(gathered: &Gathered<'_>, entry: &Entry<'_>) -> Result<Within, Lacking> {
    let rubric = gathered.rubric;
    let own: Vec<String> = entry
        .criterion
        .measured()
        .into_iter()
        .map(|reading| rubric.slot_id(entry, reading))
        .collect();
    let slots = rubric.slots().into_iter();
    let slots: Vec<Slot<'_>> = slots
        .filter(|slot| own.contains(&slot.id) && slot.members == 1 && !slot.several_places)
        .collect();
    let all = gathered.twice.iter().flat_map(|seen| &seen.by);
    let groups = all.flat_map(|by| slots.iter().map(|slot| repeats_of(rubric, by, slot)));
    let groups: Vec<Vec<f64>> = groups.filter(|group| group.len() > 1).collect();
    enough(groups.len())?;
    within(&groups, LEVEL)
}

fn repeats_of(rubric: &Rubric, by: &By<'_>, slot: &Slot<'_>) -> Vec<f64> {
    let facts = by.marking.facts.readings.get(&slot.id);
    let used = facts.into_iter().flatten().filter(|fact| fact.counts());
    let values = used.filter_map(|fact| match read_fact(slot, fact, rubric.unit).ok()? {
        Reading::Value(value) => in_usual_unit(slot.dimension, value.base),
        Reading::Interval { .. } | Reading::Verdict { .. } => None,
    });
    values.collect()
}
