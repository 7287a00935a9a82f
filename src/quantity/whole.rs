use std::fmt;

use serde::{Deserialize, Deserializer, Serialize, Serializer, de};

use super::exact::Exact;
use super::read::{ReadError, read_quantity};
use super::unit::{Dimension, Unit};
use super::{Quantity, print::print_exact_unit};

macro_rules! whole_amount {
    ($(#[$doc:meta])* $name:ident, $dimension:ident, $unit:ident) => {
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub struct $name(i64);

        impl $name {
            /// `base` whole base units.
            pub const fn from_base(base: i64) -> Self {
                Self(base)
            }

            /// How many base units.
            pub const fn base(self) -> i64 {
                self.0
            }

            /// Reads text as a person writes it; a bare number takes the usual
            /// unit. A value between two base units goes to the nearer.
            pub fn read(text: &str) -> Result<Self, ReadError> {
                let unit = Dimension::$dimension.usual_unit();
                let quantity = read_quantity(text, Dimension::$dimension, unit)?;
                Self::nearest(quantity).ok_or(ReadError::TooLarge { text: text.to_owned() })
            }

            /// The nearest whole amount; `None` for another dimension or past
            /// the range.
            pub fn nearest(quantity: Quantity) -> Option<Self> {
                if quantity.dimension != Dimension::$dimension {
                    return None;
                }
                let base = quantity.base.rounded_to(Exact::ONE)?.numerator();
                i64::try_from(base).ok().map(Self)
            }

            /// The same amount as an exact quantity.
            pub fn quantity(self) -> Quantity {
                Quantity::new(Dimension::$dimension, Exact::whole(self.0.into()))
            }
        }

        impl fmt::Display for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str(&print_exact_unit(self.quantity(), Unit::$unit))
            }
        }

        impl Serialize for $name {
            fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
                serializer.collect_str(self)
            }
        }

        impl<'de> Deserialize<'de> for $name {
            fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
                Self::read(&String::deserialize(deserializer)?).map_err(de::Error::custom)
            }
        }
    };
}

whole_amount!(
    /// A length: a whole number of nanometres. *Print and serde:* all its
    /// decimals in mm, `9.525 mm`.
    Length,
    Length,
    Millimetre
);
whole_amount!(
    /// An angle: a whole number of millionths of a degree. *Print:* `7.5 °`.
    Angle,
    Angle,
    Degree
);
whole_amount!(
    /// A mass: a whole number of micrograms. *Print:* `506.5 g`.
    Mass,
    Mass,
    Gram
);
whole_amount!(
    /// A duration: a whole number of milliseconds. *Print:* in minutes, `12.5 min`.
    Duration,
    Duration,
    Minute
);
whole_amount!(
    /// A count of things. *Print:* `8`.
    Count,
    Count,
    One
);

impl Length {
    /// In millimetres, for geometry and drawing; marks never depend on it.
    pub fn to_mm(self) -> f64 {
        self.quantity()
            .base
            .over(Unit::Millimetre.in_base())
            .map_or(0.0, Exact::to_f64)
    }
}
