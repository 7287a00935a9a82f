//! Small words that several parts of a sheet use.

use crate::quantity::{Exact, Marks, Quantity, Unit, print_decimal, shortened};
use crate::records::Span;
use crate::rubric::{Effect, Instrument, Shape, Uncertainty};

/// What is asked before the first reading.
pub const FIRST_CAUTION: &str = "Cooled and dry, edges filed? Black heat burns.";

/// `text` with its first letter as a capital.
pub fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_uppercase().chain(letters).collect()
    })
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

/// How wrong one reading can be, in words: `off by at most 0.5 mm`.
pub fn off_words(uncertainty: Uncertainty, unit: Unit) -> String {
    let said = |amount: Quantity| amount.print_limit(unit.or_usual(amount.dimension));
    match uncertainty {
        Uncertainty::HalfWidth(most, shape) => {
            let most = format!("off by at most {}", said(most));
            join([most, shape_words(shape)], ", ")
        }
        Uncertainty::Standard(standard) => format!("standard uncertainty {}", said(standard)),
    }
}

/// How errors are spread between the ends of a half-width, in words; nothing where all are
/// alike, as is usual.
pub(super) fn shape_words(shape: Shape) -> String {
    match shape {
        Shape::Rectangular => String::new(),
        Shape::Triangular => "small errors likelier (triangular)".to_owned(),
        Shape::UShaped => "errors near that likeliest (U-shaped)".to_owned(),
        Shape::Trapezoid(level) => {
            let percent = level.times(Exact::HUNDRED).unwrap_or(Exact::HUNDRED);
            let percent = shortened(&print_decimal(percent, 1));
            format!("alike over {percent} % of the width and rarer beyond (trapezoid)")
        }
    }
}

/// All figures of an instrument in words, and where they come from.
pub fn figures_words(instrument: &Instrument, unit: Unit) -> String {
    let said = |amount: Quantity| amount.print_limit(unit.or_usual(amount.dimension));
    let repeats = instrument.repeatability;
    let repeats = repeats.map(|amount| format!("repeats scatter by {}", said(amount)));
    let shared = instrument.shared;
    let shared =
        shared.map(|amount| format!("zero error {}, shared by all its readings", said(amount)));
    let parts = [
        off_words(instrument.uncertainty, unit),
        repeats.unwrap_or_default(),
        shared.unwrap_or_default(),
        instrument.source.clone(),
    ];
    join(parts, "; ")
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

/// A share of marks to a whole per cent, halves away from zero: `67 %`.
pub fn whole_percent(share: Exact) -> String {
    let percent = share.times(Exact::HUNDRED).unwrap_or(Exact::ZERO);
    format!("{} %", print_decimal(percent, 0))
}

/// Per cent to one place where it is not whole: `65 %`, `66.7 %`.
pub fn percent_words(percent: Exact) -> String {
    let places = u32::from(percent.denominator() != 1);
    format!("{} %", print_decimal(percent, places))
}

/// Which days are told of: `made from 1 Mar 2026 to 3 May 2026`; empty where all are.
pub fn span_words(span: Span) -> String {
    match (span.from, span.to) {
        (None, None) => String::new(),
        (Some(from), None) => format!("made from {from} on"),
        (None, Some(to)) => format!("made up to {to}"),
        (Some(from), Some(to)) if from == to => format!("made on {from}"),
        (Some(from), Some(to)) => format!("made from {from} to {to}"),
    }
}
