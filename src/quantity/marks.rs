use std::fmt;
use std::str::FromStr;

use serde::{Deserialize, Serialize};

use super::exact::Exact;
use super::print::{print_decimal, print_mixed, shortened};
use super::read::{ReadError, read_exact};

/// Marks given or to be had: an exact rational, never a float.
///
/// *Print:* a whole number, a decimal of at most two places where that is
/// exact (`7.25`), else whole and fraction (`6 2/3`). *Serde:* `"20/3"`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Marks(pub Exact);

impl Marks {
    /// No marks.
    pub const ZERO: Self = Self(Exact::ZERO);

    /// A whole number of marks.
    pub fn whole(value: i64) -> Self {
        Self(Exact::whole(value.into()))
    }

    /// Sum; `None` on overflow.
    pub fn plus(self, other: Self) -> Option<Self> {
        self.0.plus(other.0).map(Self)
    }

    /// Difference; `None` on overflow.
    pub fn minus(self, other: Self) -> Option<Self> {
        self.0.minus(other.0).map(Self)
    }

    /// These marks `factor` times; `None` on overflow.
    pub fn times(self, factor: Exact) -> Option<Self> {
        self.0.times(factor).map(Self)
    }

    /// Sum of many; `None` on overflow.
    pub fn sum(values: impl IntoIterator<Item = Self>) -> Option<Self> {
        values.into_iter().try_fold(Self::ZERO, Self::plus)
    }

    /// These marks in per cent of `out_of`; `None` where nothing can be had.
    pub fn percent_of(self, out_of: Self) -> Option<Exact> {
        self.0.over(out_of.0)?.times(Exact::HUNDRED)
    }

    /// Rank among `most`, as bands and levels show it: 4 for all, 3 from two thirds, 2 from
    /// one third, 1 below, 0 for none.
    pub fn rank(self, most: Self) -> u8 {
        let thirds = |count: i128| {
            Exact::fraction(count, 3)
                .and_then(|share| most.times(share))
                .is_some_and(|at| self >= at)
        };
        match self {
            marks if marks <= Self::ZERO => 0,
            marks if marks >= most => 4,
            _ if thirds(2) => 3,
            _ if thirds(1) => 2,
            _ => 1,
        }
    }

    /// The exact fraction, `29` or `20/3`, as files hold it.
    pub fn exact_text(self) -> String {
        self.0.to_string()
    }
}

impl fmt::Display for Marks {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let hundredths = self.0.times(Exact::HUNDRED);
        if hundredths.is_some_and(|value| value.denominator() == 1) {
            return f.write_str(&shortened(&print_decimal(self.0, 2)));
        }
        f.write_str(&print_mixed(self.0))
    }
}

impl FromStr for Marks {
    type Err = ReadError;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        read_exact(text).map(Self)
    }
}
