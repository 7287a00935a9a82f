use std::borrow::Cow;

/// One quantity in many draws side by side: what is done to all of them at once is quick.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Column<'a> {
    /// The same in every draw.
    Same(f64),
    /// One value for each draw.
    Each(Cow<'a, [f64]>),
}

/// The drawn values of each reading, by its index.
pub(super) type Columns<'f, 'a> = &'f dyn Fn(usize) -> &'a [f64];

impl<'a> Column<'a> {
    /// The drawn values of a reading.
    pub fn of(values: &'a [f64]) -> Self {
        Self::Each(Cow::Borrowed(values))
    }

    /// What `change` makes of it in each draw.
    pub fn map(self, change: impl Fn(f64) -> f64) -> Self {
        match self {
            Self::Same(value) => Self::Same(change(value)),
            Self::Each(mut values) => {
                for value in values.to_mut() {
                    *value = change(*value);
                }
                Self::Each(values)
            }
        }
    }

    /// What `join` makes of this and another one in each draw.
    pub fn with(self, other: Self, join: impl Fn(f64, f64) -> f64) -> Self {
        match (self, other) {
            (one, Self::Same(b)) => one.map(|a| join(a, b)),
            (Self::Same(a), other) => other.map(|b| join(a, b)),
            (Self::Each(mut one), Self::Each(other)) => {
                for (a, b) in one.to_mut().iter_mut().zip(other.iter()) {
                    *a = join(*a, *b);
                }
                Self::Each(one)
            }
        }
    }

    /// The mean of some readings.
    pub fn mean(readings: &[usize], of: Columns<'_, 'a>) -> Self {
        let all = readings.iter().map(|reading| Self::of(of(*reading)));
        let sum = all.reduce(|sum, one| sum.with(one, |a, b| a + b));
        let count = u32::try_from(readings.len()).unwrap_or(u32::MAX);
        match sum {
            Some(one) if count == 1 => one,
            Some(sum) => sum.map(|sum| sum / f64::from(count)),
            None => Self::Same(0.0),
        }
    }

    /// The values, one for each of so many draws.
    pub fn values(self, draws: usize) -> Cow<'a, [f64]> {
        match self {
            Self::Same(value) => Cow::Owned(vec![value; draws]),
            Self::Each(values) => values,
        }
    }
}
