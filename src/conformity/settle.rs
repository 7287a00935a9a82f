use crate::marking::{Facts, instrument};
use crate::rubric::{Entry, Instrument, Rubric};

use super::certainty::Settle;
use super::entry::MeasuredEntry;
use super::variable::{Variable, Variables};

/// As many readings as are asked for where no surer instrument is at hand.
const REPEATS: usize = 4;
/// A gain in probability below this is not worth measuring again for.
const GAIN: f64 = 0.01;

/// What would make a close call surer, by the value that it has: a surer instrument that
/// the rubric lets stand in, else more readings by the same one. `probability` is that of
/// the marks given, with the readings as they are told.
pub(super) fn settle(
    rubric: &Rubric,
    facts: &Facts,
    entry: &Entry<'_>,
    measured: &MeasuredEntry,
    variables: &Variables,
    probability: &dyn Fn(&Variables) -> Option<f64>,
) -> Option<Settle> {
    let now = probability(variables)?;
    let slots = slots(rubric, entry);
    let used: Vec<Instrument> = slots
        .iter()
        .flat_map(|slot| with(rubric, facts, slot))
        .collect();
    let first = used.first()?;
    let mut best: Option<Settle> = None;
    let offers = offers(rubric, facts, &used).chain([(first.clone(), REPEATS)]);
    for (offer, readings) in offers {
        let then = probability(&remeasured(measured, variables, &offer, readings))?;
        let is_surer = best.as_ref().is_none_or(|best| then > best.probability);
        if then > now + GAIN && is_surer {
            best = Some(Settle {
                name: offer.name.clone(),
                instrument: offer.id,
                readings: u32::try_from(readings).unwrap_or(u32::MAX),
                probability: then,
            });
        }
    }
    best
}

/// Ids of the readings that an entry measures.
fn slots(rubric: &Rubric, entry: &Entry<'_>) -> Vec<String> {
    let readings = entry.criterion.measured().into_iter();
    readings
        .map(|reading| rubric.slot_id(entry, reading))
        .collect()
}

/// The instruments that a slot was measured with.
fn with(rubric: &Rubric, facts: &Facts, id: &str) -> Vec<Instrument> {
    let slots = rubric.slots();
    let Some(slot) = slots.iter().find(|slot| slot.id == id) else {
        return Vec::new();
    };
    let readings = facts.readings.get(id).map_or(&[][..], Vec::as_slice);
    let named = readings
        .iter()
        .filter_map(|reading| reading.instrument.as_deref().or(slot.instrument));
    named
        .filter_map(|id| instrument(rubric, facts, id))
        .collect()
}

/// The instruments that can stand in for all of `used`, with the examiner's own figures
/// where there are some.
fn offers<'a>(
    rubric: &'a Rubric,
    facts: &'a Facts,
    used: &'a [Instrument],
) -> impl Iterator<Item = (Instrument, usize)> + 'a {
    let fits = |offer: &&Instrument| {
        let stands_in = |known: &Instrument| offer.in_place_of.contains(&known.id);
        used.iter().all(stands_in)
    };
    rubric.instruments.iter().filter(fits).map(|offer| {
        (
            instrument(rubric, facts, &offer.id).unwrap_or_else(|| offer.clone()),
            1,
        )
    })
}

/// The readings of a value as if they had been taken with `offer`, so many times each.
fn remeasured(
    measured: &MeasuredEntry,
    variables: &Variables,
    offer: &Instrument,
    readings: usize,
) -> Variables {
    let mut again = variables.clone();
    let with = vec![Some(offer.clone()); readings];
    for index in measured.value.variables() {
        let (own, shared) = again.uncertainty(&with);
        if let Some(variable) = again.all.get_mut(index) {
            *variable = Variable {
                mean: variable.mean,
                half: 0.0,
                own,
                shared,
            };
        }
    }
    again
}
