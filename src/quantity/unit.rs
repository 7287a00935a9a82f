use serde::{Deserialize, Serialize};

use super::exact::Exact;

/// What kind of amount a quantity is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Dimension {
    /// Base unit: nanometre.
    Length,
    /// Base unit: millionth of a degree.
    Angle,
    /// Base unit: microgram.
    Mass,
    /// Base unit: millisecond.
    Duration,
    /// Base unit: one.
    Count,
}

impl Dimension {
    /// The unit that a bare number takes when nothing else is said.
    pub fn usual_unit(self) -> Unit {
        match self {
            Self::Length => Unit::Millimetre,
            Self::Angle => Unit::Degree,
            Self::Mass => Unit::Gram,
            Self::Duration => Unit::Minute,
            Self::Count => Unit::One,
        }
    }

    /// The dimension in a word.
    pub fn word(self) -> &'static str {
        match self {
            Self::Length => "length",
            Self::Angle => "angle",
            Self::Mass => "mass",
            Self::Duration => "duration",
            Self::Count => "count",
        }
    }
}

/// A unit to read or print in. The two inch units differ only in the step to
/// which they print.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Unit {
    /// Prints to 0.1 mm.
    Millimetre,
    /// Prints to 0.01 cm.
    Centimetre,
    /// Prints to 0.001 m.
    Metre,
    /// 25.4 mm exactly; prints to the nearest 1/32.
    Inch32,
    /// 25.4 mm exactly; prints to the nearest 1/64.
    Inch64,
    /// Prints to 0.1 degree.
    Degree,
    /// Prints to 0.1 g.
    Gram,
    /// Prints to 0.001 kg.
    Kilogram,
    /// Avoirdupois ounce, 28.349523125 g exactly; prints to 0.01 oz.
    Ounce,
    /// Avoirdupois pound, 453.59237 g exactly; prints to 0.001 lb.
    Pound,
    /// Durations print as hours, minutes and seconds whatever unit is asked.
    Second,
    /// See [`Unit::Second`].
    Minute,
    /// See [`Unit::Second`].
    Hour,
    /// A plain number.
    One,
}

impl Unit {
    /// What this unit measures.
    pub fn dimension(self) -> Dimension {
        match self {
            Self::Millimetre | Self::Centimetre | Self::Metre | Self::Inch32 | Self::Inch64 => {
                Dimension::Length
            }
            Self::Degree => Dimension::Angle,
            Self::Gram | Self::Kilogram | Self::Ounce | Self::Pound => Dimension::Mass,
            Self::Second | Self::Minute | Self::Hour => Dimension::Duration,
            Self::One => Dimension::Count,
        }
    }

    /// Whether it prints as a fraction of an inch.
    pub fn is_inch(self) -> bool {
        matches!(self, Self::Inch32 | Self::Inch64)
    }

    /// This unit where it measures `dimension`, or else the usual one that does.
    pub fn or_usual(self, dimension: Dimension) -> Self {
        if self.dimension() == dimension {
            self
        } else {
            dimension.usual_unit()
        }
    }

    /// Base units in one of this unit.
    ///
    /// *Source:* international yard and pound agreement, 1959 (1 yd = 0.9144 m,
    /// 1 lb = 0.45359237 kg, both exact; from memory).
    pub fn in_base(self) -> Exact {
        let (numerator, denominator) = match self {
            Self::Millimetre => (1_000_000, 1),
            Self::Centimetre => (10_000_000, 1),
            Self::Metre => (1_000_000_000, 1),
            Self::Inch32 | Self::Inch64 => (25_400_000, 1),
            Self::Degree | Self::Gram => (1_000_000, 1),
            Self::Kilogram => (1_000_000_000, 1),
            Self::Ounce => (453_592_370, 16),
            Self::Pound => (453_592_370, 1),
            Self::Second => (1_000, 1),
            Self::Minute => (60_000, 1),
            Self::Hour => (3_600_000, 1),
            Self::One => (1, 1),
        };
        Exact::fraction(numerator, denominator).unwrap_or(Exact::ONE)
    }

    /// The sign written after a number.
    pub fn symbol(self) -> &'static str {
        match self {
            Self::Millimetre => "mm",
            Self::Centimetre => "cm",
            Self::Metre => "m",
            Self::Inch32 | Self::Inch64 => "in",
            Self::Degree => "°",
            Self::Gram => "g",
            Self::Kilogram => "kg",
            Self::Ounce => "oz",
            Self::Pound => "lb",
            Self::Second => "s",
            Self::Minute => "min",
            Self::Hour => "h",
            Self::One => "",
        }
    }

    /// Decimal places that print for this unit.
    pub fn decimals(self) -> u32 {
        match self {
            Self::Millimetre | Self::Degree | Self::Gram => 1,
            Self::Centimetre | Self::Ounce => 2,
            Self::Metre | Self::Kilogram | Self::Pound => 3,
            _ => 0,
        }
    }

    /// The unit that a person wrote; `None` for a word that is no unit.
    pub fn from_symbol(text: &str) -> Option<Self> {
        Some(match text.to_lowercase().as_str() {
            "mm" | "millimetre" | "millimetres" => Self::Millimetre,
            "cm" | "centimetre" | "centimetres" => Self::Centimetre,
            "m" | "metre" | "metres" => Self::Metre,
            "in" | "in." | "inch" | "inches" | "\"" | "″" | "”" | "''" => Self::Inch64,
            "°" | "deg" | "degree" | "degrees" => Self::Degree,
            "g" | "gram" | "grams" => Self::Gram,
            "kg" => Self::Kilogram,
            "oz" | "ounce" | "ounces" => Self::Ounce,
            "lb" | "lbs" | "pound" | "pounds" => Self::Pound,
            "s" | "sec" | "second" | "seconds" => Self::Second,
            "min" | "minute" | "minutes" => Self::Minute,
            "h" | "hr" | "hour" | "hours" => Self::Hour,
            _ => return None,
        })
    }
}
