//! Readings as typed, turned into what they say.

use std::collections::BTreeMap;

use crate::quantity::{Exact, Quantity, Reading, Unit, Verdict, read_reading};
use crate::rubric::{Rubric, Slot};

use super::facts::{Facts, ReadingFact};
use super::result::Problem;

/// What the readings of one slot say together.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Taken {
    /// The mean of so many repeats.
    Mean(Exact, usize),
    /// The members of a series.
    Series(Vec<Exact>),
    /// At least the first and less than the second.
    Interval(Exact, Exact),
    /// A gauge verdict on a named limit.
    Verdict(Verdict, Option<String>),
}

/// Every slot of the sheet with what was taken there.
pub(super) struct Slots<'r> {
    slots: BTreeMap<String, (Slot<'r>, Option<Taken>)>,
    pub problems: Vec<Problem>,
}

impl<'r> Slots<'r> {
    pub fn read(rubric: &'r Rubric, facts: &Facts) -> Self {
        let mut problems = Vec::new();
        let mut slots = BTreeMap::new();
        for slot in rubric.slots() {
            let readings = facts.readings.get(&slot.id).map_or(&[][..], Vec::as_slice);
            let taken = take(&slot, readings, rubric.unit).unwrap_or_else(|message| {
                problems.push(Problem {
                    id: slot.id.clone(),
                    message,
                });
                None
            });
            slots.insert(slot.id.clone(), (slot, taken));
        }
        Self { slots, problems }
    }

    pub fn taken(&self, id: &str) -> Option<&Taken> {
        self.slots.get(id).and_then(|(_, taken)| taken.as_ref())
    }

    pub fn name(&self, id: &str) -> String {
        self.slots
            .get(id)
            .map_or_else(|| id.to_owned(), |(slot, _)| slot.name.clone())
    }

    pub fn has(&self, id: &str) -> bool {
        self.slots.contains_key(id)
    }

    /// The mean of a slot, where it is a plain value.
    pub fn mean(&self, id: &str) -> Option<Quantity> {
        let (slot, taken) = self.slots.get(id)?;
        let base = match taken.as_ref()? {
            Taken::Mean(mean, _) => *mean,
            Taken::Series(members) => Exact::mean(members)?,
            Taken::Interval(..) | Taken::Verdict(..) => return None,
        };
        Some(Quantity::new(slot.dimension, base))
    }
}

/// More repeats than anyone takes.
const MOST_READINGS: usize = 1000;

fn take(slot: &Slot<'_>, facts: &[ReadingFact], sheet: Unit) -> Result<Option<Taken>, String> {
    if facts.len() > MOST_READINGS {
        return Err("these are more than 1000 readings; keep the ones that count".to_owned());
    }
    let mut values = Vec::new();
    let mut other = None;
    let used = facts
        .iter()
        .filter(|fact| !fact.hot && !fact.text.trim().is_empty());
    for fact in used {
        match read_fact(slot, fact, sheet)? {
            Reading::Value(quantity) => values.push(quantity.base),
            Reading::Interval { from, to } if other.is_none() => {
                other = Some(Taken::Interval(from.base, to.base));
            }
            Reading::Verdict { verdict, limit } if other.is_none() => {
                other = Some(Taken::Verdict(
                    verdict,
                    limit.map(|name| name.to_lowercase()),
                ));
            }
            _ => return Err(only_one()),
        }
    }
    match (other, values.as_slice()) {
        (Some(taken), []) if slot.members == 1 => Ok(Some(taken)),
        (Some(_), []) => Err("a series needs values, one for each member".to_owned()),
        (Some(_), _) => Err(only_one()),
        (None, []) => Ok(None),
        (None, members) if slot.members > 1 => series(slot, members),
        (None, repeats) => {
            let mean = Exact::mean(repeats).ok_or("these numbers are too large; mend one")?;
            Ok(Some(Taken::Mean(mean, repeats.len())))
        }
    }
}

fn series(slot: &Slot<'_>, members: &[Exact]) -> Result<Option<Taken>, String> {
    let wanted = usize::try_from(slot.members).unwrap_or(usize::MAX);
    match members.len() {
        found if found < wanted => Ok(None),
        found if found > wanted => Err(format!(
            "these are {found} readings, the series has {wanted}; take out the rest"
        )),
        _ => Ok(Some(Taken::Series(members.to_vec()))),
    }
}

fn only_one() -> String {
    "an interval or a gauge verdict stands alone; keep it, or write values only".to_owned()
}

fn read_fact(slot: &Slot<'_>, fact: &ReadingFact, sheet: Unit) -> Result<Reading, String> {
    let unit = fact
        .unit
        .filter(|unit| unit.dimension() == slot.dimension)
        .unwrap_or(sheet);
    let unit = if unit.dimension() == slot.dimension {
        unit
    } else {
        slot.dimension.usual_unit()
    };
    let reading =
        read_reading(&fact.text, slot.dimension, unit).map_err(|fault| fault.to_string())?;
    Ok(reading)
}
