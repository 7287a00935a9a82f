use super::chance::two_sided_t;
use super::numbers::{all_finite, at_least, mean, number, variance};
use super::share::wilson;
use super::{Interval, Lacking};

/// How far two groups lie apart.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Difference {
    /// The first less the second.
    pub difference: f64,
    /// Between which ends it lies.
    pub interval: Interval,
}

/// The mean of `one` less that of `other`, in their unit, with the interval of Welch, which
/// does not take both as scattering alike.
///
/// *Source:* Welch, Biometrika 34 (1947) 28; degrees of freedom after Satterthwaite,
/// Biometrics Bulletin 2 (1946) 110.
///
/// *Errors:* fewer than two numbers on a side, one that is not finite, no scatter on either
/// side, a level that is no share.
pub fn welch(one: &[f64], other: &[f64], level: f64) -> Result<Difference, Lacking> {
    let mut parts = [0.0; 2];
    for (part, values) in parts.iter_mut().zip([one, other]) {
        at_least(values.len(), 2, "numbers in a group")?;
        all_finite(values, "a number")?;
        *part = variance(values) / number(values.len());
    }
    let [first, second] = parts;
    let squared = first + second;
    if squared <= 0.0 {
        return Err(Lacking::NoSpread("both groups"));
    }
    let freedom = |count: usize| number(count) - 1.0;
    let df = squared * squared
        / (first * first / freedom(one.len()) + second * second / freedom(other.len()));
    let difference = mean(one) - mean(other);
    let off = two_sided_t(df, level)? * squared.sqrt();
    Ok(Difference {
        difference,
        interval: Interval {
            low: difference - off,
            high: difference + off,
            level,
        },
    })
}

/// One share less another, each so many of so many, with an interval made of Wilson's of
/// both.
///
/// *Source:* Newcombe, Statist. Med. 17 (1998) 873, method 10.
///
/// *Errors:* as [`wilson`].
pub fn newcombe(
    one: (usize, usize),
    other: (usize, usize),
    level: f64,
) -> Result<Difference, Lacking> {
    let share = |(some, of): (usize, usize)| number(some) / number(of);
    let (first, second) = (
        wilson(one.0, one.1, level)?,
        wilson(other.0, other.1, level)?,
    );
    let (high, low) = (share(one), share(other));
    let difference = high - low;
    let down = (high - first.low).hypot(second.high - low);
    let up = (first.high - high).hypot(low - second.low);
    Ok(Difference {
        difference,
        interval: Interval {
            low: difference - down,
            high: difference + up,
            level,
        },
    })
}
