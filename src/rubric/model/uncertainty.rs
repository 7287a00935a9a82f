use serde::{Deserialize, Serialize};
use thiserror::Error;

use crate::quantity::{Exact, Quantity};

/// An instrument's uncertainty as it is stated.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Uncertainty {
    /// Half-width `a` of a distribution of this shape.
    HalfWidth(Quantity, Shape),
    /// Standard uncertainty.
    Standard(Quantity),
}

impl Uncertainty {
    /// The amount as it is stated.
    pub fn amount(self) -> Quantity {
        match self {
            Self::HalfWidth(amount, _) | Self::Standard(amount) => amount,
        }
    }

    /// Standard uncertainty in base units.
    ///
    /// *Formula:* a half-width `a` gives `a` times the root of [`Shape::variance`].
    pub fn standard(self) -> f64 {
        let base = self.amount().base.to_f64();
        match self {
            Self::HalfWidth(_, shape) => base * shape.variance().to_f64().sqrt(),
            Self::Standard(_) => base,
        }
    }
}

/// How the error of a reading is spread between the ends of its half-width.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub enum Shape {
    /// All errors are alike.
    #[default]
    Rectangular,
    /// The smaller, the likelier.
    Triangular,
    /// Near the ends likeliest, as where something swings between them (arcsine).
    UShaped,
    /// All errors alike over this share of the width, from 0 to 1, and rarer towards the ends.
    Trapezoid(Exact),
}

/// The word for a [`Shape`].
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum ShapeWord {
    /// [`Shape::Rectangular`].
    Rectangular,
    /// [`Shape::Triangular`].
    Triangular,
    /// [`Shape::UShaped`].
    UShaped,
    /// [`Shape::Trapezoid`].
    Trapezoid,
}

impl ShapeWord {
    /// Words of files and pages.
    pub const WORDS: &'static [(&'static str, Self)] = &[
        ("rectangular", Self::Rectangular),
        ("triangular", Self::Triangular),
        ("u-shaped", Self::UShaped),
        ("trapezoid", Self::Trapezoid),
    ];

    /// The word for this value.
    pub fn word(self) -> &'static str {
        let mut words = Self::WORDS.iter();
        let found = words.find(|(_, value)| *value == self);
        found.map_or("", |(word, _)| word)
    }
}

/// Why a word and a level share make no shape.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Error)]
pub enum ShapeFault {
    /// A trapezoid does not say how much of it is level.
    #[error("a trapezoid needs its level share; write how much of the width is level, from 0 to 1")]
    NoLevel,
    /// The level share is no share.
    #[error("a level share outside 0 to 1; write how much of the width is level, such as 0.5")]
    LevelOutside,
    /// Only a trapezoid has one.
    #[error("only a trapezoid has a level share; leave it out, or choose that shape")]
    NeedlessLevel,
}

impl Shape {
    /// The shape called so, with the share of its width that is `level`.
    ///
    /// *Errors:* [`ShapeFault`].
    pub fn of(word: ShapeWord, level: Option<Exact>) -> Result<Self, ShapeFault> {
        match (word, level) {
            (ShapeWord::Trapezoid, Some(level)) => {
                let is_share = !level.is_negative() && level <= Exact::whole(1);
                is_share
                    .then_some(Self::Trapezoid(level))
                    .ok_or(ShapeFault::LevelOutside)
            }
            (ShapeWord::Trapezoid, None) => Err(ShapeFault::NoLevel),
            (_, Some(_)) => Err(ShapeFault::NeedlessLevel),
            (ShapeWord::Rectangular, None) => Ok(Self::Rectangular),
            (ShapeWord::Triangular, None) => Ok(Self::Triangular),
            (ShapeWord::UShaped, None) => Ok(Self::UShaped),
        }
    }

    /// Variance for the half-width 1.
    ///
    /// *Formulas:* rectangular `1/3`, triangular `1/6`, U-shaped `1/2`, trapezoid
    /// `(1 + b^2) / 6` with the level share `b` (JCGM 100:2008, 4.3.7 and 4.3.9; the
    /// arcsine from memory).
    pub fn variance(self) -> Exact {
        let part = |parts| Exact::fraction(1, parts).unwrap_or(Exact::ZERO);
        match self {
            Self::Rectangular => part(3),
            Self::Triangular => part(6),
            Self::UShaped => part(2),
            Self::Trapezoid(level) => {
                let square = level.times(level);
                let sum = square.and_then(|square| square.plus(Exact::whole(1)));
                // A share too fine to square is one that nobody can tell from a rectangle.
                sum.and_then(|sum| sum.times(part(6))).unwrap_or(part(3))
            }
        }
    }
}
