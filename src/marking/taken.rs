//! Readings as typed, turned into what they say.

use std::collections::{BTreeMap, BTreeSet};

use crate::quantity::{Dimension, Exact, Quantity, Reading, Unit, Verdict, read_reading};
use crate::rubric::{Rubric, Slot};

use super::facts::{Facts, ReadingFact};
use super::result::Problem;

/// What the readings of one slot say together.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Taken {
    /// The mean of so many repeats.
    Mean(Exact, usize),
    /// The members of a series.
    Series(Vec<Exact>),
    /// At least the first and less than the second.
    Interval(Exact, Exact),
    /// A gauge verdict on a named limit.
    Verdict(Verdict, Option<String>),
}

/// One slot with what was taken there.
struct Given<'r> {
    slot: Slot<'r>,
    taken: Option<Taken>,
    /// Readings that can be used.
    cold: usize,
    /// Readings that were taken hot.
    hot: usize,
}

/// Every slot of the sheet with what was taken there, in the rubric's order.
pub(super) struct Slots<'r> {
    slots: Vec<Given<'r>>,
    places: BTreeMap<String, usize>,
    pub problems: Vec<Problem>,
}

impl<'r> Slots<'r> {
    pub fn read(rubric: &'r Rubric, facts: &Facts) -> Self {
        let mut problems = Vec::new();
        let measured = measured_slots(rubric);
        let mut slots = Vec::new();
        let mut places = BTreeMap::new();
        for slot in rubric.slots() {
            let readings = facts.readings.get(&slot.id).map_or(&[][..], Vec::as_slice);
            let taken = take(&slot, readings, rubric.unit).and_then(|taken| {
                let is_sized = slot.is_named && !measured.contains(&slot.id);
                match taken.as_ref().is_some_and(Taken::starts_below_zero) {
                    true if is_sized => below_zero(slot.dimension).map_or(Ok(taken), Err),
                    _ => Ok(taken),
                }
            });
            let taken = taken.unwrap_or_else(|message| {
                problems.push(Problem {
                    id: slot.id.clone(),
                    message,
                });
                None
            });
            problems.extend(misstated(&slot, readings));
            let written = |hot: bool| {
                let written = readings.iter().filter(|fact| fact.is_written());
                written.filter(|fact| fact.hot == hot).count()
            };
            let (cold, hot) = (written(false), written(true));
            let given = Given {
                slot,
                taken,
                cold,
                hot,
            };
            places.insert(given.slot.id.clone(), slots.len());
            slots.push(given);
        }
        Self {
            slots,
            places,
            problems,
        }
    }

    /// Every slot, in the rubric's order.
    pub fn all(&self) -> impl Iterator<Item = &Slot<'r>> {
        self.slots.iter().map(|given| &given.slot)
    }

    fn get(&self, id: &str) -> Option<&Given<'r>> {
        self.slots.get(*self.places.get(id)?)
    }

    pub fn taken(&self, id: &str) -> Option<&Taken> {
        self.get(id).and_then(|given| given.taken.as_ref())
    }

    pub fn name(&self, id: &str) -> String {
        self.get(id)
            .map_or_else(|| id.to_owned(), |given| given.slot.name.clone())
    }

    pub fn has(&self, id: &str) -> bool {
        self.places.contains_key(id)
    }

    /// The mean of a slot, where it is a plain value.
    pub fn mean(&self, id: &str) -> Option<Quantity> {
        let given = self.get(id)?;
        let base = match given.taken.as_ref()? {
            Taken::Mean(mean, _) => *mean,
            Taken::Series(members) => Exact::mean(members)?,
            Taken::Interval(..) | Taken::Verdict(..) => return None,
        };
        Some(Quantity::new(given.slot.dimension, base))
    }

    /// Why nothing can be held against the bands here.
    pub fn lack(&self, id: &str) -> String {
        match self.get(id) {
            Some(given) if given.hot > 0 => "taken hot, so not used: measure it cold".to_owned(),
            Some(given) if given.cold > 0 && given.slot.members > 1 => {
                format!("{} of {} readings", given.cold, given.slot.members)
            }
            _ => "no reading yet".to_owned(),
        }
    }
}

impl Taken {
    fn starts_below_zero(&self) -> bool {
        match self {
            Self::Mean(value, _) | Self::Interval(value, _) => value.is_negative(),
            Self::Series(_) | Self::Verdict(..) => false,
        }
    }
}

/// Readings that a criterion measures: its bands say whether they may be below zero.
fn measured_slots(rubric: &Rubric) -> BTreeSet<String> {
    let entries = rubric.entries();
    let slots = entries.iter().flat_map(|entry| {
        let measured = entry.criterion.measured().into_iter();
        measured.map(|reading| rubric.slot_id(entry, reading))
    });
    slots.collect()
}

/// What to say of an amount of `dimension` below zero; `None` for an angle, whose sign says
/// which way it leans.
pub(super) fn below_zero(dimension: Dimension) -> Option<String> {
    let word = dimension.word();
    (dimension != Dimension::Angle)
        .then(|| format!("a {word} below zero cannot be measured; write how much it is"))
}

/// What the readings of `slot` state of their uncertainty and cannot be used: the marks stand,
/// and their instrument's own figures count.
fn misstated(slot: &Slot<'_>, readings: &[ReadingFact]) -> Option<Problem> {
    let counting = readings.iter().filter(|fact| fact.counts());
    let mut stated = counting.filter_map(|fact| fact.stated.as_ref());
    let fault = stated.find_map(|stated| stated.read(slot.dimension).err())?;
    Some(Problem {
        id: slot.id.clone(),
        message: fault.to_string(),
    })
}

/// More repeats than anyone takes.
const MOST_READINGS: usize = 1000;

fn take(slot: &Slot<'_>, facts: &[ReadingFact], sheet: Unit) -> Result<Option<Taken>, String> {
    if facts.len() > MOST_READINGS {
        return Err("these are more than 1000 readings; keep the ones that count".to_owned());
    }
    let mut values = Vec::new();
    let mut other = None;
    let used = facts.iter().filter(|fact| fact.counts());
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

/// One reading as typed, read in its own unit or the sheet's, in the base unit of its
/// dimension.
///
/// *Errors:* what is wrong with the text, in words.
pub fn read_fact(slot: &Slot<'_>, fact: &ReadingFact, sheet: Unit) -> Result<Reading, String> {
    let unit = fact.meant(slot.dimension, sheet);
    read_reading(&fact.text, slot.dimension, unit).map_err(|fault| fault.to_string())
}
