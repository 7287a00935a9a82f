use super::super::{Lacking, Resampling, Spread};
use super::ratings::Ratings;

/// The interval of any figure of a table, by drawing as many targets as there are from it, with
/// replacement, again and again.
///
/// Raters are not drawn: the interval says nothing of what other raters would do.
///
/// # Errors
/// Those of `figure` for the table itself, and those of [`Resampling`]: too few draws, or a
/// figure that too few of them have.
pub fn bootstrap(
    ratings: &Ratings,
    draws: &Resampling,
    figure: impl Fn(&Ratings) -> Result<f64, Lacking>,
) -> Result<Spread, Lacking> {
    figure(ratings)?;
    draws.spread(ratings.targets(), |places| {
        figure(&ratings.drawn(places.iter().copied())).ok()
    })
}
