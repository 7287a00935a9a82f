use serde::Serialize;

use super::super::numbers::{all_finite, at_least, mean, median};
use super::super::{Lacking, Line, Resampling, Spread};

/// Marks of a group of pieces, with a judge's rating of each as a whole.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Borderline<'s> {
    /// Totals by the rubric.
    pub totals: &'s [f64],
    /// Ratings at the same places, given without the marks in sight.
    pub ratings: &'s [f64],
    /// The rating that means just between failing and passing.
    pub borderline: f64,
}

/// A pass mark by the borderline group.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Group {
    /// How many pieces are borderline.
    pub count: usize,
    /// Their mean total.
    pub mean: f64,
    /// Their median total.
    pub median: f64,
    /// The mean over borderline pieces drawn anew.
    pub mean_spread: Spread,
    /// The median over the same draws.
    pub median_spread: Spread,
}

/// A pass mark by borderline regression.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Regression {
    /// The line's height at the borderline rating.
    pub cut: f64,
    /// Total on rating.
    pub line: Line,
    /// Standard error of the line's height at the borderline rating.
    pub standard_error: f64,
    /// The cut over pieces drawn anew, total and rating together.
    pub spread: Spread,
}

impl Borderline<'_> {
    fn check(&self) -> Result<(), Lacking> {
        if self.totals.len() != self.ratings.len() {
            return Err(Lacking::Gaps("total and rating of each piece"));
        }
        all_finite(self.totals, "a total")?;
        all_finite(self.ratings, "a rating")?;
        all_finite(&[self.borderline], "the borderline rating")
    }
}

/// The borderline-group method: mean and median total of the pieces with exactly the
/// borderline rating (Livingston and Zieky 1982). The interval holds how many are borderline
/// fixed and draws those pieces anew.
///
/// # Errors
///
/// Slices of unlike length, a number that is not finite, fewer than two borderline pieces,
/// and those of the resampling.
pub fn borderline_group(pieces: Borderline<'_>, resampling: Resampling) -> Result<Group, Lacking> {
    pieces.check()?;
    let pairs = pieces.totals.iter().zip(pieces.ratings);
    let own = pairs.filter(|(_, rating)| **rating == pieces.borderline);
    let own: Vec<f64> = own.map(|(total, _)| *total).collect();
    at_least(own.len(), 2, "borderline pieces")?;
    let of = |drawn: &[usize]| -> Vec<f64> {
        drawn
            .iter()
            .filter_map(|at| own.get(*at).copied())
            .collect()
    };
    Ok(Group {
        count: own.len(),
        mean: mean(&own),
        median: median(&own),
        mean_spread: resampling.spread(own.len(), |drawn| Some(mean(&of(drawn))))?,
        median_spread: resampling.spread(own.len(), |drawn| Some(median(&of(drawn))))?,
    })
}

/// Borderline regression: the least-squares line of total on rating, read at the borderline
/// rating (Kramer and others 2003). It uses all pieces, and none needs to be borderline; how
/// far the rating lies from those given shows in the standard error.
///
/// # Errors
///
/// Slices of unlike length, a number that is not finite, fewer than three pieces, ratings
/// that are all the same, and those of the resampling. Draws with one rating for all
/// pieces have no line; they are left out and counted.
pub fn borderline_regression(
    pieces: Borderline<'_>,
    resampling: Resampling,
) -> Result<Regression, Lacking> {
    pieces.check()?;
    let line = Line::fit(pieces.ratings, pieces.totals)?;
    let cut = line.at(pieces.borderline);
    let standard_error = line.standard_error_at(pieces.borderline);
    all_finite(&[cut, standard_error], "a cut so far from the ratings")?;
    let spread = resampling.spread(pieces.totals.len(), |drawn| {
        let of = |values: &[f64]| -> Vec<f64> {
            drawn
                .iter()
                .filter_map(|at| values.get(*at).copied())
                .collect()
        };
        let line = Line::fit(&of(pieces.ratings), &of(pieces.totals)).ok()?;
        Some(line.at(pieces.borderline))
    })?;
    Ok(Regression {
        cut,
        line,
        standard_error,
        spread,
    })
}
