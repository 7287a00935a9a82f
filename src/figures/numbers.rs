//! Means, variances and ranks, and what every figure asks of its numbers first.

use num_traits::ToPrimitive as _;

use super::Lacking;

/// A count as a float. Counts here are of numbers held in memory, so none is lost.
pub(super) fn number(count: usize) -> f64 {
    count.to_f64().unwrap_or(f64::INFINITY)
}

/// Whether all of `values` are finite; `what` names them in the error.
pub(super) fn all_finite(values: &[f64], what: &'static str) -> Result<(), Lacking> {
    if values.iter().all(|value| value.is_finite()) {
        Ok(())
    } else {
        Err(Lacking::NotANumber(what))
    }
}

/// Whether there are at least `needs` of `what`.
///
/// *Errors:* [`Lacking::TooFew`].
pub fn at_least(has: usize, needs: usize, what: &'static str) -> Result<(), Lacking> {
    if has >= needs {
        Ok(())
    } else {
        Err(Lacking::TooFew { what, has, needs })
    }
}

/// A figure that must be finite: an overflow of extreme numbers becomes a [`Lacking`].
pub(super) fn finite(value: f64, what: &'static str) -> Result<f64, Lacking> {
    if value.is_finite() {
        Ok(value)
    } else {
        Err(Lacking::NotANumber(what))
    }
}

/// A share that lies between 0 and 1, both left out.
pub(super) fn share(value: f64, what: &'static str) -> Result<f64, Lacking> {
    if value > 0.0 && value < 1.0 {
        Ok(value)
    } else {
        Err(Lacking::NotANumber(what))
    }
}

/// A level of confidence, which is such a share.
pub(super) fn confidence(level: f64) -> Result<f64, Lacking> {
    share(level, "the level of confidence")
}

/// Arithmetic mean; 0 of nothing. Differences from the first value are averaged, so that
/// equal values have exactly their value as the mean.
pub fn mean(values: &[f64]) -> f64 {
    let Some(first) = values.first() else {
        return 0.0;
    };
    let differences = values.iter().map(|value| value - first);
    first + differences.sum::<f64>() / number(values.len())
}

/// Sum of products of deviations from the means, over pairs.
pub(super) fn cross_products(xs: &[f64], ys: &[f64]) -> f64 {
    let (x_mean, y_mean) = (mean(xs), mean(ys));
    let pairs = xs.iter().zip(ys);
    pairs.map(|(x, y)| (x - x_mean) * (y - y_mean)).sum()
}

/// Variance with the divisor n - 1; 0 of fewer than two values. What rounding alone can
/// leave of equal values counts as 0.
pub(super) fn variance(values: &[f64]) -> f64 {
    if values.len() < 2 {
        return 0.0;
    }
    let squares = cross_products(values, values);
    let squares = without_rounding(squares, values);
    squares / (number(values.len()) - 1.0)
}

/// `squares`, a sum of squared deviations of `values`, or 0 where it is no more than
/// rounding can make of means of up to 64 of them.
pub(super) fn without_rounding(squares: f64, values: &[f64]) -> f64 {
    over(rounding(values, 64.0), squares)
}

/// A sum of squares of so many differences that is not more than this may be nothing but
/// rounding: each difference is off by the machine's precision of the largest value, times
/// how many were added for the means.
pub(super) fn rounding(values: &[f64], added: f64) -> f64 {
    let largest = values
        .iter()
        .fold(0.0_f64, |most, value| most.max(value.abs()));
    number(values.len()) * (added * f64::EPSILON * largest).powi(2)
}

/// The sum, or nothing where it is not over the floor. Where even the floor is beyond what a
/// float holds, nothing can be said of it.
pub(super) fn over(floor: f64, sum: f64) -> f64 {
    if sum > floor || !floor.is_finite() || sum.is_nan() {
        sum
    } else {
        0.0
    }
}

/// The middle value, or the mean of the two middle ones.
pub(super) fn median(values: &[f64]) -> f64 {
    let mut sorted = values.to_vec();
    sorted.sort_by(f64::total_cmp);
    quantile(&sorted, 0.5)
}

/// Quantile of sorted values, linear between the two order statistics around
/// `(n - 1) share` (Hyndman and Fan 1996, definition 7); 0 of nothing.
pub(super) fn quantile(sorted: &[f64], share: f64) -> f64 {
    let last = sorted.len().saturating_sub(1);
    let place = share.clamp(0.0, 1.0) * number(last);
    let below = place.floor().to_usize().unwrap_or(last).min(last);
    let low = sorted.get(below).copied().unwrap_or(0.0);
    let high = sorted.get(below + 1).copied().unwrap_or(low);
    low + (place - number(below)) * (high - low)
}

/// The sum of squared differences from the mean.
pub(super) fn squares(values: &[f64]) -> f64 {
    let middle = mean(values);
    values.iter().map(|value| (value - middle).powi(2)).sum()
}

/// That scores of two raters stand side by side, are finite, and are at least `needs` pairs.
pub(super) fn side_by_side(first: &[f64], second: &[f64], needs: usize) -> Result<(), Lacking> {
    if first.len() != second.len() {
        return Err(Lacking::Gaps("the scores of two raters"));
    }
    at_least(first.len(), needs, "pairs of scores")?;
    let all = first.iter().chain(second);
    all.copied()
        .try_for_each(|score| finite(score, "a score").map(drop))
}

/// The rank of each value from 1, equal ones sharing the mean of theirs (midranks).
pub(super) fn midranks(values: &[f64]) -> Vec<f64> {
    let mut order: Vec<usize> = (0..values.len()).collect();
    let at = |place: &usize| values.get(*place).copied().unwrap_or_default();
    order.sort_unstable_by(|a, b| at(a).total_cmp(&at(b)));
    let mut ranks = vec![0.0; values.len()];
    let mut before = 0.0;
    for tied in order.chunk_by(|a, b| at(a) == at(b)) {
        let size = number(tied.len());
        for place in tied {
            if let Some(rank) = ranks.get_mut(*place) {
                *rank = before + (size + 1.0) / 2.0;
            }
        }
        before += size;
    }
    ranks
}

/// How often each distinct value occurs, in rising order; of `sorted` values.
pub(super) fn runs(sorted: &[f64]) -> Vec<(f64, f64)> {
    let tied = sorted.chunk_by(|a, b| a == b);
    tied.filter_map(|tied| Some((*tied.first()?, number(tied.len()))))
        .collect()
}
