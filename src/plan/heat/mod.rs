//! Heat: how much larger hot steel measures, what colour it has, what scale takes.

mod colour;
mod expansion;
mod scale;

pub use colour::{CHAPMAN, COLOURS, Colour, ColourTable, STIRLING};
pub use expansion::{cold, elongation, hot};
pub use scale::left_of;

pub(super) use scale::left;

/// A temperature in degrees Fahrenheit.
pub fn fahrenheit(celsius: f64) -> f64 {
    celsius * 1.8 + 32.0
}

/// A temperature in degrees Celsius, from Fahrenheit.
pub fn celsius(fahrenheit: f64) -> f64 {
    (fahrenheit - 32.0) / 1.8
}
