use super::super::Lacking;
use super::super::numbers::{at_least, number};
use super::ratings::Ratings;
use super::tests::ZTest;

/// Agreement of several raters on categories, beyond chance.
#[derive(Debug, Clone, PartialEq)]
pub struct FleissKappa {
    /// 1 for perfect agreement, 0 for as much as chance gives.
    pub value: f64,
    /// The share of pairs of raters that agree, over all targets.
    pub observed: f64,
    /// That share by chance.
    pub expected: f64,
    /// The standard error where the true figure is 0. For an interval, see
    /// [`bootstrap`](super::bootstrap()).
    pub error_null: f64,
    /// Whether there is agreement beyond chance.
    pub test: Result<ZTest, Lacking>,
    /// Each category against all others, in rising order.
    pub categories: Vec<CategoryKappa>,
}

/// Agreement on whether targets are of one category.
#[derive(Debug, Clone, PartialEq)]
pub struct CategoryKappa {
    /// The category.
    pub category: f64,
    /// The share of scores that are of it.
    pub share: f64,
    /// Agreement beyond chance.
    pub value: f64,
    /// The standard error where the true figure is 0.
    pub error_null: f64,
}

/// Fleiss' kappa of a table without empty cells, whose scores are categories. Which rater gave
/// which score does not count, and a category that nobody used changes nothing.
///
/// *Formulas:* with `m` raters, `N` targets and the share `p` of a category, whose count at a
/// target is `c`, agreement on it is `1 - sum c (m - c) / (N m (m - 1) p (1 - p))` and the
/// figure is the same with sums over the categories above and below the line (Fleiss 1971).
/// Standard errors are those of Fleiss, Nee and Landis (1979).
///
/// # Errors
/// `Gaps` for an empty cell, `TooFew` for fewer than two raters, `NoSpread` where there is one
/// category only.
pub fn fleiss_kappa(ratings: &Ratings) -> Result<FleissKappa, Lacking> {
    let scores = ratings.complete()?;
    at_least(ratings.raters(), 2, "raters")?;
    let categories = ratings.distinct();
    if categories.len() < 2 {
        return Err(Lacking::NoSpread("the scores"));
    }
    let raters = number(ratings.raters());
    let pairs = number(ratings.targets()) * raters * (raters - 1.0);
    let mut apart = 0.0;
    let mut shares = Vec::with_capacity(categories.len());
    let mut found = Vec::with_capacity(categories.len());
    for category in categories {
        let rows = scores.chunks_exact(ratings.raters());
        let counts = rows.map(|row| number(row.iter().filter(|one| **one == category).count()));
        let counts: Vec<f64> = counts.collect();
        let share = counts.iter().sum::<f64>() / number(scores.len());
        let split: f64 = counts.iter().map(|count| count * (raters - count)).sum();
        apart += split;
        shares.push(share);
        found.push(CategoryKappa {
            category,
            share,
            value: 1.0 - split / (pairs * share * (1.0 - share)),
            error_null: (2.0 / pairs).sqrt(),
        });
    }
    let odds: f64 = shares.iter().map(|share| share * (1.0 - share)).sum();
    let value = 1.0 - apart / (pairs * odds);
    let error_null = error_null(&shares, odds, pairs);
    Ok(FleissKappa {
        value,
        observed: 1.0 - apart / pairs,
        expected: 1.0 - odds,
        error_null,
        test: ZTest::of(value, error_null),
        categories: found,
    })
}

/// *Formula:* `sqrt(2 / pairs) / S * sqrt(S^2 - sum p q (q - p))`, `S` being the sum of `p q`.
fn error_null(shares: &[f64], odds: f64, pairs: f64) -> f64 {
    let third = shares.iter().map(|p| p * (1.0 - p) * (1.0 - 2.0 * p));
    let left = odds.powi(2) - third.sum::<f64>();
    (2.0 / pairs * left.max(0.0)).sqrt() / odds
}
