//! Small words that several parts of a sheet use.

use crate::quantity::{Dimension, Exact, Marks, Quantity, Unit, print_length_fraction, shortened};
use crate::rubric::{Effect, Entry, Shoe};

/// Rank of marks for bands and levels: 4 for all, 3 from two thirds, 2 from one
/// third, 1 below, 0 for none.
pub fn rank(marks: Marks, most: Marks) -> u8 {
    let thirds = |count: i128| {
        Exact::fraction(count, 3)
            .and_then(|share| most.times(share))
            .is_some_and(|at| marks >= at)
    };
    match marks {
        marks if marks <= Marks::ZERO => 0,
        marks if marks >= most => 4,
        _ if thirds(2) => 3,
        _ if thirds(1) => 2,
        _ => 1,
    }
}

/// `text` with its first letter as a capital.
pub fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_uppercase().chain(letters).collect()
    })
}

/// A name with the shoe behind it, where there are several.
pub(super) fn with_shoe(name: &str, shoe: Option<&Shoe>) -> String {
    match shoe {
        Some(shoe) => format!("{name} ({})", shoe.name),
        None => name.to_owned(),
    }
}

/// What an entry is called.
pub(super) fn entry_name(entry: &Entry<'_>) -> String {
    with_shoe(&entry.criterion.name, entry.shoe)
}

/// `1 mark`, `4 marks`, `1/2 mark`.
pub(super) fn marks_words(marks: Marks) -> String {
    let is_one = marks <= Marks::whole(1) && marks > Marks::ZERO;
    format!("{marks} {}", if is_one { "mark" } else { "marks" })
}

/// What an effect adds to a band, level or fault; nothing for a noted one.
pub(super) fn effect_words(effect: Effect) -> &'static str {
    match effect {
        Effect::Noted => "",
        Effect::Warn => " and a warning",
        Effect::Stop => " and stops the award",
    }
}

/// The unit in which amounts of `dimension` are said on a sheet in `sheet`.
pub(super) fn unit_for(dimension: Dimension, sheet: Unit) -> Unit {
    if sheet.dimension() == dimension {
        sheet
    } else {
        dimension.usual_unit()
    }
}

/// A limit or target as short as it can be said: at most two places, trailing zeros
/// left out; in inches only where a 64th says it exactly.
pub(super) fn amount_words(dimension: Dimension, base: Exact, sheet: Unit) -> String {
    let quantity = Quantity::new(dimension, base);
    let mut unit = unit_for(dimension, sheet);
    if matches!(unit, Unit::Inch32 | Unit::Inch64) {
        let in_64ths = base
            .over(Unit::Inch64.in_base())
            .and_then(|inches| inches.times(Exact::whole(64)));
        if in_64ths.is_some_and(|count| count.denominator() == 1) {
            return print_length_fraction(quantity, 64);
        }
        unit = Unit::Millimetre;
    }
    shortened(&quantity.print_to(unit, 2))
}

/// Parts that say something, with `between` between them.
pub(super) fn join<T: AsRef<str>>(parts: impl IntoIterator<Item = T>, between: &str) -> String {
    let mut joined = String::new();
    for part in parts {
        let part = part.as_ref();
        if !part.is_empty() {
            if !joined.is_empty() {
                joined.push_str(between);
            }
            joined.push_str(part);
        }
    }
    joined
}
