use num_traits::ToPrimitive;
use rand_xoshiro::Xoshiro256PlusPlus;
use rand_xoshiro::rand_core::{Rng as _, SeedableRng as _};

use super::super::{Interval, Lacking};
use super::numbers::{at_least, real, share};
use super::ratings::Ratings;

/// How many tables are drawn, from which seed, for which level of confidence.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Draws {
    /// How many; 2,000 is usual for the ends of a 95 % interval.
    pub count: usize,
    /// The same seed gives the same interval.
    pub seed: u64,
    /// The level, `0.95` for 95 %.
    pub level: f64,
}

/// An interval from tables drawn anew.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bootstrap {
    /// Between the quantiles that leave out the same share of draws on either side.
    pub interval: Interval,
    /// How many draws had the figure; in the others it does not exist.
    pub kept: usize,
}

/// The interval of any figure of a table, by drawing as many targets as there are from it, with
/// replacement, again and again: the percentile interval (Efron and Tibshirani 1993, 13.3).
/// Quantiles lie between neighbours in proportion (Hyndman and Fan 1996, definition 7).
///
/// Raters are not drawn: the interval says nothing of what other raters would do.
///
/// # Errors
/// Those of `figure` for the table itself; `TooFew` where fewer than one draw would lie beyond
/// each end, or where half of the draws or more lack the figure; `NotANumber` for a level that
/// is none.
pub fn bootstrap(
    ratings: &Ratings,
    draws: &Draws,
    figure: impl Fn(&Ratings) -> Result<f64, Lacking>,
) -> Result<Bootstrap, Lacking> {
    let level = share(draws.level, "the level of confidence")?;
    let beyond = (1.0 - level) / 2.0;
    let needs = (1.0 / beyond).ceil().to_usize().unwrap_or(usize::MAX);
    at_least(needs, draws.count, "draws")?;
    figure(ratings)?;
    let mut random = Xoshiro256PlusPlus::seed_from_u64(draws.seed);
    let targets = ratings.targets();
    let mut found: Vec<f64> = (0..draws.count)
        .filter_map(|_| {
            let drawn = ratings.drawn((0..targets).map(|_| below(&mut random, targets)));
            figure(&drawn).ok()
        })
        .collect();
    at_least(
        needs.max(draws.count / 2 + 1),
        found.len(),
        "draws that have the figure",
    )?;
    found.sort_unstable_by(f64::total_cmp);
    Ok(Bootstrap {
        interval: Interval {
            low: quantile(&found, beyond),
            high: quantile(&found, 1.0 - beyond),
            level,
        },
        kept: found.len(),
    })
}

/// A whole number below `end`, each as likely: the high half of a product (Lemire 2019). What
/// it is off by is less than `end / 2^64`.
fn below(random: &mut Xoshiro256PlusPlus, end: usize) -> usize {
    let product = u128::from(random.next_u64()) * end.to_u128().unwrap_or_default();
    (product >> 64).to_usize().unwrap_or_default()
}

/// The quantile of sorted values.
fn quantile(sorted: &[f64], at: f64) -> f64 {
    let place = at * real(sorted.len().saturating_sub(1));
    let lower = place.floor().to_usize().unwrap_or_default();
    let here = sorted.get(lower).copied().unwrap_or_default();
    let next = sorted.get(lower + 1).copied().unwrap_or(here);
    here + (next - here) * (place - place.floor())
}
