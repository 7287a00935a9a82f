use serde::Serialize;

use super::super::chance::f_quantile;
use super::super::numbers::{at_least, confidence, finite, number, variance};
use super::super::table::Table;
use super::super::{Interval, Lacking};
use super::marks;

/// Cronbach's alpha of a set of items.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Alpha {
    /// The coefficient; below 0 where items go against one another.
    pub alpha: f64,
    /// Interval for it.
    pub interval: Interval,
    /// How many items vary at all. One that does not still counts as an item.
    pub varying: usize,
}

/// Cronbach's alpha: `k / (k - 1) (1 - sum of item variances / variance of the total)`
/// (Cronbach 1951), for items marked 0 or 1 the same as KR-20.
///
/// The interval is that of Feldt 1965: `1 - (1 - alpha) F`, with the quantiles of F for
/// `n - 1` and `(n - 1)(k - 1)` degrees of freedom, `n` rows and `k` items. It rests on
/// normal marks and on items that differ by a constant.
///
/// # Errors
///
/// Fewer than two rows or items, a mark missing or not finite, totals that are all the same,
/// a level outside 0 to 1.
pub fn alpha(rows: &[Vec<f64>], level: f64) -> Result<Alpha, Lacking> {
    confidence(level)?;
    let table = marks(rows, 2, 2)?;
    let variances: Vec<f64> = table.columns().iter().map(|item| variance(item)).collect();
    let alpha = alpha_of_variances(&variances, variance(&table.totals()))?;
    let free = number(rows.len()) - 1.0;
    let within = free * (number(variances.len()) - 1.0);
    let tail = 0.5 * (1.0 - level);
    let end = |above| {
        let end = 1.0 - (1.0 - alpha) * f_quantile(above, free, within)?;
        finite(end, "the interval of alpha")
    };
    Ok(Alpha {
        alpha,
        interval: Interval {
            low: end(tail)?,
            high: end(1.0 - tail)?,
            level,
        },
        varying: variances.iter().filter(|variance| **variance > 0.0).count(),
    })
}

/// Cronbach's alpha from the variances of the items and that of the total.
///
/// # Errors
///
/// Fewer than two items, a variance that is negative or not finite, a total that does not
/// vary.
pub fn alpha_of_variances(items: &[f64], total: f64) -> Result<f64, Lacking> {
    at_least(items.len(), 2, "items")?;
    if !items.iter().all(|one| *one >= 0.0 && one.is_finite()) || !total.is_finite() {
        return Err(Lacking::NotANumber("a variance"));
    }
    if total <= 0.0 {
        return Err(Lacking::NoSpread("totals"));
    }
    let count = number(items.len());
    let parts: f64 = items.iter().sum();
    finite(
        count / (count - 1.0) * (1.0 - parts / total),
        "alpha of so unlike variances",
    )
}

/// Alpha of all items but the one at `left_out`.
pub(super) fn alpha_without(table: &Table, left_out: usize) -> Result<f64, Lacking> {
    let columns = table.columns().iter().enumerate();
    let rest = columns.filter(|(at, _)| *at != left_out);
    let variances: Vec<f64> = rest.map(|(_, item)| variance(item)).collect();
    alpha_of_variances(&variances, variance(&rest_totals(table, left_out)))
}

/// The total of each row without the item at `left_out`.
pub(super) fn rest_totals(table: &Table, left_out: usize) -> Vec<f64> {
    let rest = |row: &Vec<f64>| -> f64 {
        let marks = row.iter().enumerate();
        marks
            .filter(|(at, _)| *at != left_out)
            .map(|(_, mark)| mark)
            .sum()
    };
    table.rows().iter().map(rest).collect()
}

/// The reliability of a test made `times` as long with parts like those it has, or shorter:
/// `times r / (1 + (times - 1) r)` (Spearman 1910; Brown 1910).
///
/// # Errors
///
/// A reliability outside 0 to 1, or a length that is not above 0.
pub fn lengthened(reliability: f64, times: f64) -> Result<f64, Lacking> {
    if !(0.0..=1.0).contains(&reliability) {
        return Err(Lacking::NotANumber("the reliability"));
    }
    if !(times > 0.0 && times.is_finite()) {
        return Err(Lacking::NotANumber("the length"));
    }
    Ok(times * reliability / (1.0 + (times - 1.0) * reliability))
}

/// How many times as long a test must be for the `wanted` reliability, by the same formula.
///
/// # Errors
///
/// Either reliability not between 0 and 1, the ends left out.
pub fn times_longer(reliability: f64, wanted: f64) -> Result<f64, Lacking> {
    let is_inside = |one: f64| one > 0.0 && one < 1.0;
    if !is_inside(reliability) || !is_inside(wanted) {
        return Err(Lacking::NotANumber("the reliability"));
    }
    let odds = |one: f64| one / (1.0 - one);
    finite(odds(wanted) / odds(reliability), "so great a length")
}
