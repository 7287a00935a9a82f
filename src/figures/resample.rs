//! Intervals by drawing the cases anew, with a seed.

use num_traits::ToPrimitive as _;
use rand_xoshiro::Xoshiro256PlusPlus;
use rand_xoshiro::rand_core::{Rng as _, SeedableRng as _};
use serde::Serialize;

use super::numbers::{at_least, confidence, finite, quantile, variance};
use super::{Interval, Lacking};

/// How cases are drawn anew: the same seed, draws and cases give the same interval.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Resampling {
    /// Where the generator (xoshiro256++) begins.
    pub seed: u64,
    /// How many times all cases are drawn; at least 100.
    pub draws: usize,
    /// The share of the draws between the ends of the interval, `0.95` for 95 %.
    pub level: f64,
}

/// What a figure came to over the draws.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Spread {
    /// Percentile interval (Efron and Tibshirani 1993, 13.3).
    pub interval: Interval,
    /// Standard deviation over the draws: the bootstrap's standard error.
    pub standard_error: f64,
    /// Draws for which the figure did not exist; they are left out of the rest.
    pub without: usize,
}

/// The least number of draws whose ends say anything.
const LEAST: usize = 100;

impl Resampling {
    /// Draws `cases` of the numbers from 0 to `cases - 1` with replacement, again and again,
    /// and gives what `figure` makes of the numbers drawn.
    ///
    /// # Errors
    ///
    /// A level outside 0 to 1, fewer than 100 draws, no cases, or a figure that exists for
    /// fewer than half of the draws, as an interval over the rest would flatter it.
    pub(super) fn spread(
        &self,
        cases: usize,
        figure: impl Fn(&[usize]) -> Option<f64>,
    ) -> Result<Spread, Lacking> {
        confidence(self.level)?;
        at_least(self.draws, LEAST, "draws")?;
        at_least(cases, 1, "cases to draw from")?;
        let mut random = Xoshiro256PlusPlus::seed_from_u64(self.seed);
        let mut drawn = vec![0; cases];
        let mut found = Vec::with_capacity(self.draws);
        for _ in 0..self.draws {
            for place in &mut drawn {
                *place = below(random.next_u64(), cases);
            }
            found.extend(figure(&drawn).filter(|value| value.is_finite()));
        }
        at_least(
            found.len(),
            self.draws.div_ceil(2),
            "draws that give the figure",
        )?;
        found.sort_by(f64::total_cmp);
        let tail = 0.5 * (1.0 - self.level);
        Ok(Spread {
            interval: Interval {
                low: quantile(&found, tail),
                high: quantile(&found, 1.0 - tail),
                level: self.level,
            },
            standard_error: finite(variance(&found).sqrt(), "the spread of the draws")?,
            without: self.draws - found.len(),
        })
    }
}

/// A whole number below `end` from 64 random bits: the high half of their product (Lemire
/// 2019). No number is likelier than another by more than `end` in 2^64.
fn below(bits: u64, end: usize) -> usize {
    let product = u128::from(bits) * end.to_u128().unwrap_or(0);
    (product >> 64).to_usize().unwrap_or(0)
}
