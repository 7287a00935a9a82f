use crate::marking::{ReadingFact, is_photo_gauge};
use crate::quantity::{Dimension, Exact, Quantity, Reading, Unit, Verdict, read_reading};
use crate::rubric::{Kind, Rubric};

use super::plan::{Input, Row};

/// A key of the number pad that changes a text.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Key<'k> {
    /// Puts this behind the text: a digit, a comma, `..`, a fraction.
    Put(&'k str),
    /// Takes one character away.
    Back,
    /// Empties the text.
    Clear,
}

/// The text after a key. A fraction after a whole number gets its space.
pub fn press(text: &str, key: Key<'_>) -> String {
    match key {
        Key::Clear => String::new(),
        Key::Back => {
            let mut shorter = text.to_owned();
            shorter.pop();
            shorter
        }
        Key::Put(put) => {
            let is_fraction = put.contains('/') && put.starts_with(|c: char| c.is_ascii_digit());
            let gap = is_fraction && text.ends_with(|c: char| c.is_ascii_digit());
            format!("{text}{}{put}", if gap { " " } else { "" })
        }
    }
}

/// The smallest step of a unit on the pad.
fn step_of(unit: Unit) -> Option<Exact> {
    let (above, below) = match unit {
        Unit::Millimetre | Unit::Centimetre => (100_000, 1),
        Unit::Metre => (1_000_000, 1),
        Unit::Inch32 | Unit::Inch64 => (25_400_000, 32),
        Unit::Degree => (500_000, 1),
        Unit::Gram | Unit::Kilogram => (1_000_000, 1),
        Unit::Ounce | Unit::Pound => (453_592_370, 256),
        Unit::Second | Unit::Minute | Unit::Hour => (60_000, 1),
        Unit::One => (1, 1),
    };
    Exact::fraction(above, below)
}

/// The text one step up or down: 0.1 mm, 1/32 in, half a degree, a minute, one.
/// An empty text starts at `start`; what is no plain value stays as it is.
pub fn step(
    text: &str,
    dimension: Dimension,
    unit: Unit,
    up: bool,
    start: Option<Quantity>,
) -> String {
    let unit = unit.or_usual(dimension);
    let value = match read_reading(text, dimension, unit) {
        Ok(Reading::Value(value)) => value,
        _ if text.trim().is_empty() => start.unwrap_or(Quantity::zero(dimension)),
        _ => return text.to_owned(),
    };
    let stepped = step_of(unit).and_then(|step| {
        let step = if up { step } else { step.negated() };
        value.base.plus(step)
    });
    let Some(base) = stepped.filter(|base| !base.is_negative()) else {
        return text.to_owned();
    };
    let printed = Quantity::new(dimension, base).print(unit);
    match (dimension, printed.split_once(' ')) {
        (Dimension::Length | Dimension::Angle | Dimension::Mass, Some((number, symbol)))
            if symbol == unit.symbol() && unit.decimals() > 0 =>
        {
            number.to_owned()
        }
        _ => printed,
    }
}

/// The text in an input: a member of a series, or repeats with semicolons.
pub fn text_in(readings: &[ReadingFact], input: &Input) -> String {
    match input.member {
        Some(member) => readings
            .get(member)
            .map(|fact| fact.text.clone())
            .unwrap_or_default(),
        None => readings
            .iter()
            .map(|fact| fact.text.as_str())
            .collect::<Vec<_>>()
            .join(";"),
    }
}

/// How readings are taken that are typed from now on.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Taking {
    /// What a bare number means; `None` is the rubric's unit.
    pub unit: Option<Unit>,
    /// On hot steel.
    pub hot: bool,
    /// The instrument, where it is not the usual one.
    pub instrument: Option<String>,
}

/// The readings of a slot after `text` was typed into `input`: `10.2; 10.4` are
/// repeats. What the text does not say (what a bare number means, instrument,
/// hot) stays as it was; where nothing was, it is as in `taking`. An instrument that was
/// chosen outlasts the last text, in an empty reading. What is typed over a reading from a
/// photo is none: the row's usual instrument takes it, and what the photo stated is gone.
pub fn with_text(
    before: &[ReadingFact],
    input: &Input,
    text: &str,
    taking: &Taking,
) -> Vec<ReadingFact> {
    let fact = |index: usize, text: &str| {
        let old = before.get(index);
        let as_it_was = old.filter(|old| old.text == text);
        let chosen = match old {
            Some(old) => &old.instrument,
            None => &taking.instrument,
        };
        let by_hand = |id: &&String| as_it_was.is_some() || !is_photo_gauge(id);
        ReadingFact {
            text: text.to_owned(),
            unit: old
                .filter(|old| !old.text.is_empty())
                .and_then(|old| old.unit)
                .or(taking.unit),
            instrument: chosen.as_ref().filter(by_hand).cloned(),
            hot: old.map_or(taking.hot, |old| old.hot),
            stated: as_it_was.and_then(|old| old.stated.clone()),
        }
    };
    let mut after: Vec<ReadingFact> = match input.member {
        None => text
            .split(';')
            .enumerate()
            .map(|(index, part)| fact(index, part))
            .collect(),
        Some(member) => (0..before.len().max(member + 1))
            .map(|index| match before.get(index) {
                _ if index == member => fact(index, text),
                Some(old) => old.clone(),
                None => fact(index, ""),
            })
            .collect(),
    };
    while after
        .last()
        .is_some_and(|last| last.text.is_empty() && after.len() > 1)
        && input.member.is_some()
    {
        after.pop();
    }
    let is_blank = after.iter().all(|fact| fact.text.is_empty());
    if is_blank && (input.member.is_some() || after.len() == 1) {
        let chosen = after.into_iter().find_map(|fact| fact.instrument);
        let empty = |instrument| ReadingFact {
            instrument: Some(instrument),
            ..ReadingFact::of("")
        };
        chosen.map(empty).into_iter().collect()
    } else {
        after
    }
}

/// The sign behind an input whose bare number means `unit`.
pub fn unit_sign(input: &Input, unit: Unit) -> &'static str {
    unit.or_usual(input.dimension).symbol()
}

/// The verdict that a text is, without a named limit.
pub fn verdict_of(text: &str) -> Option<Verdict> {
    match read_reading(text, Dimension::Length, Unit::Millimetre) {
        Ok(Reading::Verdict {
            verdict,
            limit: None,
        }) => Some(verdict),
        _ => None,
    }
}

/// Where the pad's steps start in an empty row: what is asked for.
pub fn start_of(rubric: &Rubric, row: &Row) -> Option<Quantity> {
    let entries = rubric.entries();
    let entry = entries.iter().find(|entry| entry.id == row.id)?;
    match entry.criterion.kind {
        Kind::Toleranced(_) => entry.criterion.scale()?.target.as_ref()?.constant(),
        _ => None,
    }
}

/// How often a fault is noted.
pub fn times_seen(faults: Option<&[String]>, id: &str) -> usize {
    faults.map_or(0, |faults| {
        faults.iter().filter(|fault| *fault == id).count()
    })
}

/// What the button says that counts a fault once more.
pub fn seen_words(times: usize) -> String {
    match times {
        0 | 1 => "Seen again".to_owned(),
        times => format!("Seen again: {times} times"),
    }
}

/// The faults with `id` noted `times` times.
pub fn with_fault(faults: Option<&[String]>, id: &str, times: usize) -> Vec<String> {
    let others = faults
        .unwrap_or_default()
        .iter()
        .filter(|fault| *fault != id)
        .cloned();
    others
        .chain(std::iter::repeat_n(id.to_owned(), times))
        .collect()
}
