use num_integer::Integer;

use crate::quantity::{Exact, Marks};

/// Marks as whole numbers of one small unit, so that sums are quick and stay exact.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Lattice {
    per_mark: i128,
}

impl Lattice {
    /// The coarsest lattice that holds all of `marks`; `None` where its unit would be too
    /// small to count with.
    pub fn of(marks: impl IntoIterator<Item = Marks>) -> Option<Self> {
        let per_mark = marks.into_iter().try_fold(1_i128, |common, marks| {
            let denominator = marks.0.denominator();
            let common = (common / common.gcd(&denominator)).checked_mul(denominator)?;
            (common <= 1_000_000_000).then_some(common)
        })?;
        Some(Self { per_mark })
    }

    /// `marks` in units; `None` where they are none of the lattice's, or too many.
    pub fn units(&self, marks: Marks) -> Option<i64> {
        let units = marks.0.times(Exact::whole(self.per_mark))?;
        (units.denominator() == 1)
            .then(|| i64::try_from(units.numerator()).ok())
            .flatten()
    }

    /// The least number of units that is not below `marks`; `None` where it is too many.
    pub fn at_least(&self, marks: Marks) -> Option<i64> {
        i64::try_from(marks.0.times(Exact::whole(self.per_mark))?.ceil()).ok()
    }

    /// So many units as marks.
    pub fn marks(&self, units: i64) -> Marks {
        let fraction = Exact::fraction(i128::from(units), self.per_mark);
        Marks(fraction.unwrap_or(Exact::ZERO))
    }
}
