use std::cmp::Ordering;
use std::fmt;
use std::str::FromStr;

use num_integer::Integer;
use num_rational::Ratio;
use num_traits::{CheckedAdd, CheckedDiv, CheckedMul, Signed, ToPrimitive, Zero};
use serde::{Deserialize, Deserializer, Serialize, Serializer, de};

use super::read::{ReadError, read_exact};

/// An exact rational number over `i128`.
///
/// *Guarantee:* always in lowest terms with a positive denominator. *Compare:*
/// exactly. *Arithmetic:* checked; `None` on overflow or division by zero.
/// *Parse:* as [`read_exact`]. *Print:* `7`, `-7/2`. *Serde:* that text.
#[derive(Clone, Copy, PartialEq, Eq, Hash)]
pub struct Exact(Ratio<i128>);

impl Exact {
    /// Nothing.
    pub const ZERO: Self = Self(Ratio::new_raw(0, 1));
    /// One.
    pub const ONE: Self = Self(Ratio::new_raw(1, 1));
    /// A hundred, for per cent.
    pub const HUNDRED: Self = Self(Ratio::new_raw(100, 1));

    /// A whole number.
    pub fn whole(value: i128) -> Self {
        Self(Ratio::from_integer(value))
    }

    /// `numerator / denominator`; `None` for a denominator of zero and for
    /// values at the very end of the range.
    pub fn fraction(numerator: i128, denominator: i128) -> Option<Self> {
        let in_range = numerator > i128::MIN && denominator > i128::MIN;
        (in_range && denominator != 0).then(|| Self(Ratio::new(numerator, denominator)))
    }

    /// Numerator in lowest terms; carries the sign.
    pub fn numerator(self) -> i128 {
        *self.0.numer()
    }

    /// Denominator in lowest terms, at least 1.
    pub fn denominator(self) -> i128 {
        *self.0.denom()
    }

    fn is_whole(self) -> bool {
        self.denominator() == 1
    }

    /// Numerator and denominator where each fits in 64 bits, as nearly all do: their
    /// products, and sums of two of those, fit in 128 then.
    fn small(self) -> Option<(i128, i128)> {
        let fits = |part: i128| i64::try_from(part).is_ok();
        let (above, below) = (self.numerator(), self.denominator());
        (fits(above) && fits(below)).then_some((above, below))
    }

    /// In lowest terms, in 64 bits where they fit: 128 take several times as long, and in
    /// WebAssembly even longer.
    fn lowest(above: i128, below: i128) -> Self {
        let small = (u64::try_from(above.unsigned_abs()), u64::try_from(below));
        let (Ok(size), Ok(under)) = small else {
            return Self(Ratio::new(above, below));
        };
        let common = size.gcd(&under).max(1);
        let size = i128::from(size / common);
        let above = if above < 0 { -size } else { size };
        Self(Ratio::new_raw(above, i128::from(under / common)))
    }

    /// Sum.
    pub fn plus(self, other: Self) -> Option<Self> {
        // Whole numbers, as most are, need no lowest terms.
        if self.is_whole() && other.is_whole() {
            return self
                .numerator()
                .checked_add(other.numerator())
                .map(Self::whole);
        }
        match (self.small(), other.small()) {
            (Some((a, b)), Some((c, d))) => Some(Self::lowest(a * d + c * b, b * d)),
            _ => self.0.checked_add(&other.0).map(Self),
        }
    }

    /// Difference.
    pub fn minus(self, other: Self) -> Option<Self> {
        self.plus(other.negated())
    }

    /// Product.
    pub fn times(self, other: Self) -> Option<Self> {
        if self.is_whole() && other.is_whole() {
            return self
                .numerator()
                .checked_mul(other.numerator())
                .map(Self::whole);
        }
        match (self.small(), other.small()) {
            (Some((a, b)), Some((c, d))) => Some(Self::lowest(a * c, b * d)),
            _ => self.0.checked_mul(&other.0).map(Self),
        }
    }

    /// Quotient; `None` when `other` is zero.
    pub fn over(self, other: Self) -> Option<Self> {
        if other.is_zero() {
            None
        } else if other == Self::ONE {
            Some(self)
        } else {
            match (self.small(), other.small()) {
                (Some((a, b)), Some((c, d))) => Some(Self::lowest(a * d * c.signum(), b * c.abs())),
                _ => self.0.checked_div(&other.0).map(Self),
            }
        }
    }

    /// The number with the other sign.
    pub fn negated(self) -> Self {
        Self(Ratio::new_raw(
            self.numerator().saturating_neg(),
            self.denominator(),
        ))
    }

    /// The distance from zero.
    pub fn size(self) -> Self {
        if self.is_negative() {
            self.negated()
        } else {
            self
        }
    }

    /// Below zero.
    pub fn is_negative(self) -> bool {
        self.0.is_negative()
    }

    /// Exactly zero.
    pub fn is_zero(self) -> bool {
        self.0.is_zero()
    }

    /// Exact sum of many; `None` on overflow.
    pub fn sum(values: impl IntoIterator<Item = Self>) -> Option<Self> {
        values.into_iter().try_fold(Self::ZERO, Self::plus)
    }

    /// Arithmetic mean; `None` for no values or on overflow.
    pub fn mean(values: &[Self]) -> Option<Self> {
        let count = i128::try_from(values.len()).ok()?;
        Self::sum(values.iter().copied())?.over(Self::whole(count))
    }

    /// Nearest whole multiple of `step` (a positive number), ties away from
    /// zero: rule B of ISO 80000-1 annex B (from memory), applied to the size.
    /// `None` on overflow or where `step` is not positive.
    pub fn rounded_to(self, step: Self) -> Option<Self> {
        if step.is_zero() || step.is_negative() {
            return None;
        }
        // Whole steps of n / d and a half: (2 n + d) / 2 d.
        let steps = self.size().over(step)?;
        let (above, below) = (steps.numerator(), steps.denominator());
        let doubled = above.checked_mul(2)?.checked_add(below)?;
        let rounded = Self::whole(doubled / below.checked_mul(2)?).times(step)?;
        Some(if self.is_negative() {
            rounded.negated()
        } else {
            rounded
        })
    }

    /// The largest whole number not above this one.
    pub fn floor(self) -> i128 {
        self.0.floor().to_integer()
    }

    /// The smallest whole number not below this one.
    pub fn ceil(self) -> i128 {
        self.floor()
            .saturating_add(i128::from(!self.0.is_integer()))
    }

    /// The nearest float, for drawing and for display only.
    pub fn to_f64(self) -> f64 {
        let parts = (self.numerator().to_f64(), self.denominator().to_f64());
        if let (Some(above), Some(below)) = parts {
            above / below
        } else {
            f64::NAN
        }
    }
}

impl PartialOrd for Exact {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl Ord for Exact {
    fn cmp(&self, other: &Self) -> Ordering {
        match (self.small(), other.small()) {
            (Some((a, b)), Some((c, d))) => (a * d).cmp(&(c * b)),
            _ => self.0.cmp(&other.0),
        }
    }
}

impl fmt::Display for Exact {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.denominator() == 1 {
            write!(f, "{}", self.numerator())
        } else {
            write!(f, "{}/{}", self.numerator(), self.denominator())
        }
    }
}

impl fmt::Debug for Exact {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        fmt::Display::fmt(self, f)
    }
}

impl FromStr for Exact {
    type Err = ReadError;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        read_exact(text)
    }
}

impl Serialize for Exact {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(self)
    }
}

impl<'de> Deserialize<'de> for Exact {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let text = String::deserialize(deserializer)?;
        match read_written(&text) {
            Some(exact) => Ok(exact),
            None => text.parse().map_err(de::Error::custom),
        }
    }
}

/// What `Display` writes, `n` or `n/d`, of any size: people's numbers have few digits,
/// what comes of them may have more.
fn read_written(text: &str) -> Option<Exact> {
    let (numerator, denominator) = text.split_once('/').unwrap_or((text, "1"));
    Exact::fraction(numerator.parse().ok()?, denominator.parse().ok()?)
}
