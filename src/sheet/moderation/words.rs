//! Numbers of figures in words.

use crate::figures::{Interval, Lacking};
use crate::quantity::{Exact, print_decimal};

/// `1 piece`, `4 pieces`.
pub(super) fn counted(count: usize, one: &str, many: &str) -> String {
    format!("{count} {}", if count == 1 { one } else { many })
}

/// A figure to so many places, with a minus sign and never as a minus nothing.
pub(super) fn decimal(value: f64, places: usize) -> String {
    let size = format!("{:.places$}", value.abs());
    if value < 0.0 && size.contains(|sign| ('1'..='9').contains(&sign)) {
        format!("\u{2212}{size}")
    } else {
        size
    }
}

/// The same with a plus too.
pub(super) fn signed(value: f64, places: usize) -> String {
    let said = decimal(value, places);
    if value > 0.0 && said.contains(|sign| ('1'..='9').contains(&sign)) {
        format!("+{said}")
    } else {
        said
    }
}

/// `0.61 to 0.95`.
pub(super) fn between(interval: Interval, places: usize) -> String {
    let Interval { low, high, .. } = interval;
    format!("{} to {}", decimal(low, places), decimal(high, places))
}

/// A figure with its interval: `0.87 (0.61 to 0.95)`.
pub(super) fn with_interval(
    value: f64,
    interval: &Result<Interval, Lacking>,
    places: usize,
) -> String {
    let value = decimal(value, places);
    match interval {
        Ok(interval) => format!("{value} ({})", between(*interval, places)),
        Err(_) => value,
    }
}

/// An exact amount to at most one place.
pub(super) fn about(value: Exact) -> String {
    print_decimal(value, u32::from(value.denominator() != 1))
}

/// Why there is no figure, in a sentence.
pub(super) fn lacking(why: &Lacking) -> String {
    match why {
        Lacking::TooFew { what, has, needs } => {
            format!("Nothing is claimed: {what}, {has} of at least {needs}.")
        }
        Lacking::NoSpread(_) => {
            "All are the same, so there is nothing to tell agreement by.".to_owned()
        }
        why => format!("There is no such figure here: {why}."),
    }
}
