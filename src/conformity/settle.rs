use crate::marking::{Facts, instrument, taken_with};
use crate::rubric::{Entry, Instrument, Rubric};

use super::certainty::Settle;
use super::entry::MeasuredEntry;
use super::scales::Scales;
use super::variable::{Variable, Variables};

/// As many readings as are asked for where no surer instrument is at hand.
const REPEATS: usize = 4;
/// A gain in probability below this is not worth measuring again for.
const GAIN: f64 = 0.01;

/// What would make a close call surer, by the value that it has: a surer instrument that
/// the rubric lets stand in, else more readings by the same one. The marks given have
/// the probability `now`, and `probability` with the readings as they are told.
pub(super) fn settle(
    scales: &Scales<'_>,
    entry: &Entry<'_>,
    measured: &MeasuredEntry,
    now: f64,
    probability: &dyn Fn(&Variables) -> Option<f64>,
) -> Option<Settle> {
    let variables = &scales.variables;
    let used = used(scales, entry);
    let first = used.first()?;
    let mut best: Option<Settle> = None;
    let offers = offers(scales.rubric, scales.facts, &used).chain([(first.clone(), REPEATS)]);
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

/// The instruments that the readings of an entry were taken with, as far as they count.
fn used(scales: &Scales<'_>, entry: &Entry<'_>) -> Vec<Instrument> {
    let (rubric, facts) = (scales.rubric, scales.facts);
    let readings = entry.criterion.measured().into_iter();
    let ids: Vec<String> = readings
        .map(|reading| rubric.slot_id(entry, reading))
        .collect();
    let own = scales.slots.iter().filter(|slot| ids.contains(&slot.id));
    own.flat_map(|slot| {
        let counting = scales.opened.counting(slot).into_iter();
        counting.filter_map(|reading| taken_with(rubric, facts, slot, reading))
    })
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
    let mut again = variables.readings();
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
