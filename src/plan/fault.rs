use std::fmt;

use thiserror::Error;

use super::sizes::from_mm;
use crate::piece::ShapeFault;
use crate::quantity::{Length, Unit};

/// Why something of a plan cannot be worked out: what is wrong, where, and what would do.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum PlanFault {
    /// A size that no shoe or bar has.
    Size {
        /// Which size.
        what: &'static str,
        /// As given.
        given: Length,
        /// Least that is taken.
        least: Length,
        /// Most that is taken.
        most: Length,
        /// Where it is given.
        place: &'static str,
    },
    /// The piece's numbers give no shoe.
    Shape(Vec<ShapeFault>),
    /// Something that was not given.
    Needs {
        /// What is missing.
        what: &'static str,
        /// What to do.
        remedy: &'static str,
    },
    /// A method that was told on other stock.
    Stock {
        /// What it was told on.
        told: &'static str,
        /// Width of the piece's stock.
        width: Length,
        /// Its thickness.
        thickness: Length,
        /// Its profile.
        section: &'static str,
    },
    /// A method that was told on other shoes.
    Kind {
        /// What it was told on.
        told: &'static str,
        /// What the piece is.
        is: String,
    },
    /// Too few pieces of one's own.
    TooFew {
        /// How many there are.
        has: usize,
        /// How many it takes.
        needs: usize,
    },
    /// Numbers that cannot all be right.
    Contradicts {
        /// What does not go together, with `{}` where a length stands.
        what: String,
        /// The lengths, in order.
        lengths: Vec<Length>,
        /// What to do.
        remedy: &'static str,
    },
    /// A temperature for which there is no figure.
    Temperature {
        /// As given.
        celsius: f64,
    },
}

impl PlanFault {
    /// In words, each length in this unit.
    pub fn words(&self, unit: Unit) -> String {
        let say = |length: Length| say_in(length, unit);
        match self {
            // Rounded, a size and the limit that it misses may look alike.
            Self::Size {
                given, least, most, ..
            } if [least, most]
                .map(|limit| say(*limit))
                .contains(&say(*given)) =>
            {
                self.to_string()
            }
            _ => self.said(&say),
        }
    }

    fn said(&self, say: &dyn Fn(Length) -> String) -> String {
        match self {
            Self::Size {
                what,
                given,
                least,
                most,
                place,
            } => {
                let [given, least, most] = [given, least, most].map(|size| say(*size));
                format!("{what} is {given}; a plan takes {least} to {most}: change it {place}")
            }
            Self::Shape(faults) => {
                let mm = |mm: f64| from_mm(mm).map_or_else(|| format!("{mm:.1} mm"), say);
                let faults: Vec<String> = faults.iter().map(|fault| fault.words(&mm)).collect();
                let faults = faults.join("; ");
                format!("the piece cannot be drawn: {faults}; change it in the piece")
            }
            Self::Needs { what, remedy } => format!("{what} is not given; {remedy}"),
            Self::Stock {
                told,
                width,
                thickness,
                section,
            } => {
                let (width, thickness) = (say(*width), say(*thickness));
                format!(
                    "this was told on {told} only, and the piece is made of {width} by \
                     {thickness}, {section}; take another method"
                )
            }
            Self::Kind { told, is } => {
                format!("this was told on {told} only, and the piece is {is}; take another method")
            }
            Self::TooFew { has, needs } => {
                let more = needs.saturating_sub(*has);
                format!(
                    "{has} of your pieces are of this kind and stock, and it takes {needs}: note \
                     the cut length and the finished size of {more} more"
                )
            }
            Self::Contradicts {
                what,
                lengths,
                remedy,
            } => {
                let mut lengths = lengths.iter();
                let parts = what.split("{}").map(str::to_owned);
                let what = parts.reduce(|said, part| {
                    let length = lengths.next().map(|length| say(*length));
                    said + &length.unwrap_or_default() + &part
                });
                format!("{}; {remedy}", what.unwrap_or_default())
            }
            Self::Temperature { celsius } => format!(
                "{celsius:.0} °C is outside 20 to 1200 °C, where the formula holds; measure it cold"
            ),
        }
    }
}

impl fmt::Display for PlanFault {
    /// Every length in mm with all its decimals.
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(&self.said(&|length| length.to_string()))
    }
}

/// A length in this unit, without zeros that end its decimals.
pub(super) fn say_in(length: Length, unit: Unit) -> String {
    let quantity = length.quantity();
    if unit.is_inch() {
        quantity.print(unit)
    } else {
        quantity.print_limit(unit)
    }
}
