//! Numbers of figures in words.

use crate::figures::{Interval, Lacking};
use crate::quantity::{Exact, print_decimal, print_figure};

/// `0.61 to 0.95`.
pub(super) fn between(interval: Interval, places: usize) -> String {
    let Interval { low, high, .. } = interval;
    format!(
        "{} to {}",
        print_figure(low, places),
        print_figure(high, places)
    )
}

/// A figure with its interval: `0.87 (0.61 to 0.95)`.
pub(super) fn with_interval(
    value: f64,
    interval: &Result<Interval, Lacking>,
    places: usize,
) -> String {
    let value = print_figure(value, places);
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
