//! A size as an examiner reads it off an instrument and types it.

use super::amount::{add, handy_step, less, round, share};
use super::chance::Chance;
use super::people::Marker;
use crate::marking::ReadingFact;
use crate::quantity::{Dimension, Exact, Quantity, Unit, print_decimal, shortened};
use crate::rubric::{Instrument, Rubric, Slot};

/// Half a millimetre: what is read coarser is written in inches by who likes inches.
const COARSE_NM: i128 = 500_000;
/// Feelers go up by 0.05 mm.
const LEAF_NM: i128 = 50_000;

/// How one examiner writes.
pub(super) struct Hand<'a> {
    pub rubric: &'a Rubric,
    pub marker: &'a Marker,
    pub unit: Unit,
}

impl Hand<'_> {
    /// All readings of a slot whose true sizes are `sizes`.
    pub fn readings(
        &self,
        slot: &Slot<'_>,
        sizes: &[Exact],
        chance: &mut Chance,
    ) -> Vec<ReadingFact> {
        let instrument = slot.instrument.and_then(|id| self.rubric.instrument(id));
        let is_feeler = instrument.is_some_and(|instrument| is_feeler(&instrument.name));
        let alone = slot.members == 1;
        let again = alone && !is_feeler && (slot.is_named || chance.happens(120));
        let sizes = sizes.iter().chain(sizes.iter().take(usize::from(again)));
        let texts = sizes.map(|size| {
            let seen = read_off(slot, instrument, *size, chance);
            if alone && is_feeler && slot.dimension == Dimension::Length {
                self.interval(seen)
            } else {
                self.value(slot.dimension, instrument, seen)
            }
        });
        texts.map(|text| self.fact(text)).collect()
    }

    /// One value where an interval decides nothing.
    pub fn plain(&self, slot: &Slot<'_>, sizes: &[Exact]) -> Vec<ReadingFact> {
        let texts = sizes.iter().map(|size| {
            let seen = round(*size, Exact::whole(LEAF_NM));
            self.decimal(slot.dimension, seen, Exact::whole(LEAF_NM))
        });
        texts.map(|text| self.fact(text)).collect()
    }

    fn fact(&self, text: String) -> ReadingFact {
        ReadingFact {
            unit: Some(self.unit),
            ..ReadingFact::of(text)
        }
    }

    fn value(&self, dimension: Dimension, instrument: Option<&Instrument>, size: Exact) -> String {
        let step = step(dimension, instrument);
        let coarse = step >= Exact::whole(COARSE_NM);
        if dimension == Dimension::Length && self.marker.in_inches && coarse {
            let text = Quantity::new(dimension, size).print(Unit::Inch32);
            return text.trim_end_matches(" in").to_owned();
        }
        self.decimal(dimension, round(size, step), step)
    }

    fn decimal(&self, dimension: Dimension, size: Exact, step: Exact) -> String {
        let unit = match dimension {
            Dimension::Length => Unit::Millimetre,
            other => other.usual_unit(),
        };
        let number = size.over(unit.in_base()).unwrap_or(size);
        let places = (0..6)
            .zip([1, 10, 100, 1_000, 10_000, 100_000])
            .find(|(_, parts)| step.times(Exact::whole(*parts)) >= Some(unit.in_base()));
        let places = places.map_or(6, |(places, _)| places);
        let number = self.point(shortened(&print_decimal(number, places)));
        let bare = self.unit.or_usual(dimension);
        if bare == unit {
            number
        } else {
            format!("{number} {}", unit.symbol())
        }
    }

    /// The last feeler that goes and the first that does not.
    fn interval(&self, size: Exact) -> String {
        let leaf = Exact::whole(LEAF_NM);
        let near = round(size, leaf);
        let from = if near > size { less(near, leaf) } else { near }.max(Exact::ZERO);
        let say = |size: Exact| {
            let mm = size.over(Unit::Millimetre.in_base()).unwrap_or(size);
            self.point(shortened(&print_decimal(mm, 2)))
        };
        let unit = if self.unit == Unit::Millimetre {
            ""
        } else {
            " mm"
        };
        format!("{}..{}{unit}", say(from), say(add(from, leaf)))
    }

    fn point(&self, number: String) -> String {
        if self.marker.with_comma {
            number.replace('.', ",")
        } else {
            number
        }
    }
}

fn is_feeler(name: &str) -> bool {
    name.to_lowercase().contains("feeler")
}

/// The size with what repeats of one person differ by.
fn read_off(
    slot: &Slot<'_>,
    instrument: Option<&Instrument>,
    size: Exact,
    chance: &mut Chance,
) -> Exact {
    let Some(repeatability) = instrument.and_then(|instrument| instrument.repeatability) else {
        return size;
    };
    let seen = add(size, share(repeatability.base, chance.bell()));
    if slot.dimension == Dimension::Angle {
        seen
    } else {
        seen.max(Exact::ZERO)
    }
}

/// What the instrument is read to.
fn step(dimension: Dimension, instrument: Option<&Instrument>) -> Exact {
    match instrument {
        Some(instrument) => handy_step(instrument.uncertainty.amount().base),
        None => dimension.usual_unit().in_base(),
    }
}
