use std::fmt;

use super::super::fault::say_in;
use crate::quantity::{Length, Mass, Unit};

/// Why a length is to be taken with care.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Caveat {
    /// The source says that such a shoe takes more, and not how much.
    CorrespondinglyLonger,
    /// The rule is for the hoof, and the shoe's sizes stand in its place.
    ShoeForHoof,
    /// Width and length together lie outside what the rule was told on.
    OutsideSizes {
        /// Least that it was told on.
        least: Length,
        /// Most that it was told on.
        most: Length,
    },
    /// The bar holds less metal than the shoe.
    LighterThanShoe {
        /// What the bar weighs.
        bar: Mass,
        /// What the shoe weighs by its own sizes.
        shoe: Mass,
    },
    /// What a heart bar's plate takes is not in it.
    WithoutPlate,
    /// The profile changes little on the way, so it is taken for the same all along.
    SameProfile,
}

impl Caveat {
    /// In words, each length in this unit.
    pub fn words(&self, unit: Unit) -> String {
        match self {
            Self::OutsideSizes { least, most } => {
                outside(&say_in(*least, unit), &say_in(*most, unit))
            }
            _ => self.to_string(),
        }
    }
}

fn outside(least: &str, most: &str) -> String {
    format!(
        "told on shoes whose width and length come to {least} to {most} together; this one lies \
         outside"
    )
}

impl fmt::Display for Caveat {
    /// Every length in mm with all its decimals.
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::CorrespondinglyLonger => out.write_str(
                "told for a flat open shoe; a shoe with bar or calks takes a correspondingly longer \
                 bar, and the handbook gives no figure",
            ),
            Self::ShoeForHoof => out.write_str(
                "the rule is for the hoof; no hoof is given, so the shoe's own width and length stand \
                 in its place",
            ),
            Self::OutsideSizes { least, most } => {
                out.write_str(&outside(&least.to_string(), &most.to_string()))
            }
            Self::LighterThanShoe { bar, shoe } => {
                let say = |mass: &Mass| mass.quantity().print_to(Unit::Gram, 0);
                write!(
                    out,
                    "the bar weighs {} and the shoe by its sizes {}: cut it longer, or look at the \
                     sizes again",
                    say(bar),
                    say(shoe)
                )
            }
            Self::WithoutPlate => out.write_str("the frog plate is not in it; cut that apart"),
            Self::SameProfile => out.write_str(
                "the profile of the finished web is taken for that of the weighed bar, as much \
                 wider or narrower as the web is",
            ),
        }
    }
}
