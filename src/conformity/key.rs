//! Sums, warnings and stops of some units as one whole number, so that they add quickly.

use super::units::{Unit, Way};

/// Set where something stands against a pass.
const STOPS: u64 = 1 << 63;
/// Digits reach up to here.
const DIGITS: u64 = 1 << 62;

/// What some units come to together: a digit for each sum, one for the warnings, and
/// whether something stops. How it is read a [`Layout`] says.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub(super) struct Key(u64);

impl Key {
    /// From its digits, and whether something stops.
    pub fn new(digits: u64, stops: bool) -> Self {
        Self(if stops { digits | STOPS } else { digits })
    }

    pub fn stops(self) -> bool {
        self.0 & STOPS != 0
    }

    pub fn digits(self) -> u64 {
        self.0 & !STOPS
    }

    /// Both together.
    pub fn plus(self, other: Self) -> Self {
        let digits = self.digits().saturating_add(other.digits());
        Self::new(digits, self.stops() || other.stops())
    }
}

/// One digit of a key.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
struct Digit {
    /// What the digit 0 stands for.
    least: i64,
    stride: u64,
    /// How many values the digit can have.
    count: u64,
}

impl Digit {
    fn of(self, key: Key) -> u64 {
        key.digits() / self.stride % self.count
    }

    fn value(self, key: Key) -> i64 {
        let over = i64::try_from(self.of(key)).unwrap_or(i64::MAX);
        self.least.saturating_add(over)
    }
}

/// How the keys of some units are read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Layout {
    /// Axes whose sums the keys hold.
    pub axes: Vec<usize>,
    sums: Vec<Digit>,
    warnings: Digit,
}

impl Layout {
    /// Room for all that `units` can come to in `axes`, beside the sums in `base`;
    /// `None` where there are too many ways.
    pub fn of(axes: Vec<usize>, units: &[&Unit], base: &[i64]) -> Option<Self> {
        let mut ranges = Vec::new();
        for axis in &axes {
            let (mut least, mut span) = (*base.get(*axis)?, 0_u64);
            for unit in units {
                let (low, high) = ends(unit, *axis);
                least = least.checked_add(low)?;
                span = span.checked_add(u64::try_from(high.checked_sub(low)?).ok()?)?;
            }
            ranges.push((least, span));
        }
        let most = |unit: &&Unit| unit.ways.iter().map(|way| u64::from(way.warnings)).max();
        let warnings = units.iter().filter_map(most).sum();
        Self::with(axes, &ranges, warnings)
    }

    /// Room for a sum of each axis from the first of its range on, as many more as the
    /// second, and for so many warnings.
    pub fn with(axes: Vec<usize>, ranges: &[(i64, u64)], warnings: u64) -> Option<Self> {
        let mut stride = 1_u64;
        let mut digit = |least: i64, span: u64| {
            let count = span.checked_add(1)?;
            let digit = Digit {
                least,
                stride,
                count,
            };
            stride = stride.checked_mul(count).filter(|all| *all < DIGITS)?;
            Some(digit)
        };
        let sums = ranges.iter().map(|(least, span)| digit(*least, *span));
        let sums = sums.collect::<Option<_>>()?;
        Some(Self {
            axes,
            sums,
            warnings: digit(0, warnings)?,
        })
    }

    /// The keys of the ways of one of the layout's units.
    pub fn keys(&self, unit: &Unit) -> Vec<Key> {
        let lows: Vec<i64> = self.axes.iter().map(|axis| ends(unit, *axis).0).collect();
        let key = |way: &Way| {
            let axes = self.axes.iter().zip(&lows);
            let over = axes.map(|(axis, low)| way.sum(*axis).saturating_sub(*low));
            let over = over.map(|over| u64::try_from(over).unwrap_or(0));
            self.key(over, way.warnings, way.stops)
        };
        unit.ways.iter().map(key).collect()
    }

    /// The key whose sums are so many `over` the least.
    pub fn key(&self, over: impl Iterator<Item = u64>, warnings: u32, stops: bool) -> Key {
        let sums = over.zip(&self.sums);
        let digits: u64 = sums.map(|(over, digit)| over * digit.stride).sum();
        Key::new(digits + u64::from(warnings) * self.warnings.stride, stops)
    }

    /// The sum of each axis that a key says.
    pub fn sums(&self, key: Key) -> impl Iterator<Item = (usize, i64)> + '_ {
        let digits = self.axes.iter().zip(&self.sums);
        digits.map(move |(axis, digit)| (*axis, digit.value(key)))
    }

    /// The most digits that a key of the layout has.
    pub fn most_digits(&self) -> u64 {
        let above = self.warnings.stride.saturating_mul(self.warnings.count);
        above.saturating_sub(1)
    }

    pub fn warnings(&self, key: Key) -> u32 {
        u32::try_from(self.warnings.of(key)).unwrap_or(u32::MAX)
    }
}

/// The least and the most that a unit adds to a axis.
fn ends(unit: &Unit, axis: usize) -> (i64, i64) {
    let sums = unit.ways.iter().map(|way| way.sum(axis));
    let ends = sums.fold(None, |ends: Option<(i64, i64)>, sum| {
        let (low, high) = ends.unwrap_or((sum, sum));
        Some((low.min(sum), high.max(sum)))
    });
    ends.unwrap_or((0, 0))
}
