use crate::marking::ReadingFact;
use crate::quantity::{Dimension, Exact, Quantity, Reading, Unit, read_reading};

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
    let unit = if unit.dimension() == dimension {
        unit
    } else {
        dimension.usual_unit()
    };
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

/// Repeats of one reading in one text: `10.2; 10.4`.
pub fn join_repeats(readings: &[ReadingFact]) -> String {
    readings
        .iter()
        .map(|reading| reading.text.as_str())
        .collect::<Vec<_>>()
        .join("; ")
}

/// The readings in a text; what the text does not say (unit of a bare number,
/// instrument) is taken over from `before`, or the sheet's unit.
pub fn split_repeats(text: &str, before: &[ReadingFact], unit: Unit) -> Vec<ReadingFact> {
    if text.is_empty() {
        return Vec::new();
    }
    let fact = |(index, part): (usize, &str)| {
        let old = before.get(index);
        ReadingFact {
            text: if index == 0 {
                part.to_owned()
            } else {
                part.trim_start().to_owned()
            },
            unit: old.and_then(|old| old.unit).or(Some(unit)),
            instrument: old.and_then(|old| old.instrument.clone()),
            hot: old.is_some_and(|old| old.hot),
        }
    };
    text.split(';').enumerate().map(fact).collect()
}
