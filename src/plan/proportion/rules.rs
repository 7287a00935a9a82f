//! Handbook rules of proportion, as functions of sizes.

use std::ops::RangeInclusive;

use super::super::sizes::{EIGHTH, from_exact};
use crate::quantity::{Exact, Length};

/// Lungwitz and Adams.
pub(super) const LUNGWITZ: &str = "A. Lungwitz and J. W. Adams, A Text-Book of Horseshoeing, 1913";
/// United States Department of Agriculture.
pub(super) const USDA: &str =
    "US Department of Agriculture, Special Report on Diseases of the Horse, chapter on shoeing";
/// Hunting.
pub(super) const HUNTING: &str = "W. Hunting, The Art of Horse-Shoeing, 1895";
/// Axe.
pub(super) const AXE: &str =
    "J. W. Axe (ed.), The Horse, its Treatment in Health and Disease, vol. 4, 1906";
/// Fleming.
pub(super) const FLEMING: &str = "G. Fleming, Horse-Shoes and Horse-Shoeing, 1869, p. 492";
/// The American Farrier's Association, as quoted.
pub(super) const AFA: &str =
    "American Farrier’s Association, as quoted in American Farriers Journal, article 13770";

/// Lengths from a least to a most, both in it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Band {
    /// Least.
    pub least: Length,
    /// Most.
    pub most: Length,
}

impl Band {
    /// Whether a length lies in it.
    pub fn holds(self, length: Length) -> bool {
        self.least <= length && length <= self.most
    }
}

/// Average thickness of a shoe: 7/16 in. *Source:* Lungwitz and Adams, 1913.
pub const AVERAGE_THICKNESS: Length = Length::from_base(7 * EIGHTH / 2);

/// How much longer the outer branch of a base-narrow horse's shoe is: 1/4 in. *Source:* Lungwitz
/// and Adams, 1913.
pub const BASE_NARROW_LONGER: Length = Length::from_base(2 * EIGHTH);

/// How far a shoe stands outside the wall between the last nail and the heel: 1/16 to 1/8 in.
/// *Source:* Lungwitz and Adams, 1913.
pub const EXPANSION: Band = Band {
    least: Length::from_base(EIGHTH / 2),
    most: Length::from_base(EIGHTH),
};

/// How far nail holes are apart: 1 to 1 1/2 in. *Source:* Hunting, 1895.
pub const NAIL_SPACING: Band = Band {
    least: Length::from_base(8 * EIGHTH),
    most: Length::from_base(12 * EIGHTH),
};

/// More nail holes than this no shoe has. *Source:* Axe, 1906.
pub const MOST_NAILS: u32 = 8;

/// A length times a fraction, to the nearest nanometre; itself where that passes what a length
/// holds.
fn part(length: Length, above: i128, below: i128) -> Length {
    let fraction = Exact::fraction(above, below);
    let times = fraction.and_then(|fraction| length.quantity().base.times(fraction));
    times.and_then(from_exact).unwrap_or(length)
}

/// Depth of the fuller: two thirds of the thickness. *Source:* Lungwitz and Adams, 1913, p. 110;
/// US Department of Agriculture.
pub fn fuller_depth(thickness: Length) -> Length {
    part(thickness, 2, 3)
}

/// Mean width of the web: twice the thickness of the wall. *Source:* Lungwitz and Adams, 1913; US
/// Department of Agriculture.
pub fn mean_web(wall: Length) -> Length {
    part(wall, 2, 1)
}

/// How a foot stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Slope {
    /// As most do.
    Regular,
    /// Steep.
    Upright,
    /// Flat.
    Acute,
}

/// How far a heel may reach behind the buttress: as far as the shoe is thick on a regular foot, at
/// most 1/8 in on an upright one, nearly twice the thickness on an acute one. *Source:* US
/// Department of Agriculture; Lungwitz and Adams, 1913.
pub fn heel_extension(thickness: Length, slope: Slope) -> Band {
    let zero = Length::from_base(0);
    match slope {
        Slope::Regular => Band {
            least: thickness,
            most: thickness,
        },
        Slope::Upright => Band {
            least: zero,
            most: Length::from_base(EIGHTH),
        },
        Slope::Acute => Band {
            least: thickness,
            // Less than twice.
            most: Length::from_base(part(thickness, 2, 1).base().saturating_sub(1)),
        },
    }
}

/// How far behind the toe the last nail hole may lie: half the shoe in front, two thirds behind.
/// *Source:* US Department of Agriculture.
pub fn rearmost_hole(length: Length, is_hind: bool) -> Length {
    if is_hind {
        part(length, 2, 3)
    } else {
        part(length, 1, 2)
    }
}

/// How heavy a horse a shoe is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum HorseSize {
    /// Small shoes.
    Small,
    /// Medium ones.
    Medium,
    /// Heavy draught.
    Heavy,
}

/// Numbers of nail holes: 4 or 5 in small, 5 to 7 in medium, 8 in heavy shoes. *Source:* Hunting,
/// 1895.
pub fn nail_counts(size: HorseSize) -> RangeInclusive<u32> {
    match size {
        HorseSize::Small => 4..=5,
        HorseSize::Medium => 5..=7,
        HorseSize::Heavy => 8..=8,
    }
}

/// Height of a clip: the thickness of a flat shoe. *Source:* Lungwitz and Adams, 1913; US
/// Department of Agriculture.
pub fn clip_height(thickness: Length) -> Length {
    thickness
}

/// How far a shoe may stand past the wall and the heel: 75 % of the stock's width. *Source:*
/// American Farrier's Association, as quoted in American Farriers Journal, article 13770.
pub fn most_overhang(stock_width: Length) -> Length {
    part(stock_width, 3, 4)
}

/// The French proportion of the 18th century.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct French {
    /// Length of the shoe.
    pub length: Length,
    /// Width across the last nails.
    pub width: Length,
}

/// From the depth of the toe, front edge to inner border: four times that long, and three and a
/// half times wide across the last nails. *Source:* Fleming, 1869, p. 492.
pub fn french(toe_depth: Length) -> French {
    French {
        length: part(toe_depth, 4, 1),
        width: part(toe_depth, 7, 2),
    }
}
