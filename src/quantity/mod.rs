//! Lengths, angles, masses, durations, counts, marks, moments and days: read as people
//! write them, held exactly, printed rounded.
//!
//! *What is guaranteed.* A [`Length`] is a whole number of nanometres, so
//! 1/64 in (396,875 nm) and 0.01 mm are both exact and "on the limit" is
//! decided, not rounded. What is derived (two thirds of 10 mm, the mean of
//! three readings) is an [`Exact`] rational of the base unit and is compared as
//! such. [`Marks`] are exact rationals too. No float holds any of them.
//!
//! *Invariant.* This room imports no other. Nothing here rounds a value before
//! it is printed, and no text makes it panic.
//!
//! ```
//! use evenshod::quantity::{read_quantity, Dimension, Unit};
//! let reading = read_quantity("3/8", Dimension::Length, Unit::Millimetre)?;
//! assert_eq!(reading.print(Unit::Millimetre), "9.5 mm");
//! assert_eq!(reading.print(Unit::Inch64), "3/8 in");
//! # Ok::<(), evenshod::quantity::ReadError>(())
//! ```

mod exact;
mod marks;
mod moment;
mod print;
mod read;
mod reading;
mod unit;
mod whole;

pub use exact::Exact;
pub use marks::Marks;
pub use moment::{Day, Moment, TimeError};
pub use print::{
    counted, decimals_that_tell_apart, is_nearer, print_decimal, print_figure,
    print_length_fraction, print_signed, shortened, two_digit_places,
};
pub use read::{ReadError, read_exact, read_quantity};
pub use reading::{Reading, Verdict, read_reading};
pub use unit::{Dimension, Unit};
pub use whole::{Angle, Count, Duration, Length, Mass};

use serde::{Deserialize, Serialize};

/// An exact amount of one dimension, in that dimension's base unit
/// (nanometre, microdegree, microgram, millisecond, one).
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub struct Quantity {
    /// What kind of amount this is.
    pub dimension: Dimension,
    /// How many base units, exactly.
    pub base: Exact,
}

impl Quantity {
    /// `base` base units of `dimension`.
    pub fn new(dimension: Dimension, base: Exact) -> Self {
        Self { dimension, base }
    }

    /// Nothing, of `dimension`.
    pub fn zero(dimension: Dimension) -> Self {
        Self::new(dimension, Exact::ZERO)
    }

    /// Sum of two amounts of one dimension; `None` where dimensions differ or
    /// the result passes what an [`Exact`] holds.
    pub fn plus(self, other: Self) -> Option<Self> {
        (self.dimension == other.dimension)
            .then(|| self.base.plus(other.base))
            .flatten()
            .map(|base| Self::new(self.dimension, base))
    }

    /// Difference, with the same conditions as [`Quantity::plus`].
    pub fn minus(self, other: Self) -> Option<Self> {
        self.plus(Self::new(other.dimension, other.base.negated()))
    }

    /// This amount `factor` times; `None` on overflow.
    pub fn times(self, factor: Exact) -> Option<Self> {
        Some(Self::new(self.dimension, self.base.times(factor)?))
    }

    /// Text with its unit, rounded for the reader (see [`Unit`] for the steps).
    pub fn print(self, unit: Unit) -> String {
        print::print_quantity(self, unit)
    }

    /// A limit or target, as short as it can be said in `unit`: `1.5 mm`, `5 1/4 in`; what
    /// no 64th of an inch says exactly is said in millimetres, to at most two places.
    pub fn print_limit(self, unit: Unit) -> String {
        print::print_limit(self, unit)
    }

    /// As [`Quantity::print`], with `decimals` places where the unit is decimal.
    pub fn print_to(self, unit: Unit, decimals: u32) -> String {
        print::print_quantity_to(self, unit, decimals)
    }
}
