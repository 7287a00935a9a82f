//! Small sums that several figures share.

use num_traits::ToPrimitive;

use super::super::Lacking;

/// A count as a number. Every `usize` that counts things in memory has one.
pub(super) fn real(count: usize) -> f64 {
    count.to_f64().unwrap_or(f64::INFINITY)
}

/// The arithmetic mean; 0 of nothing.
pub(super) fn mean(values: &[f64]) -> f64 {
    values.iter().sum::<f64>() / real(values.len().max(1))
}

/// The sum of squared differences from the mean.
pub(super) fn squares(values: &[f64]) -> f64 {
    let middle = mean(values);
    values.iter().map(|value| (value - middle).powi(2)).sum()
}

/// The value if it is finite. Squares of very large numbers are not.
pub(super) fn finite(value: f64, what: &'static str) -> Result<f64, Lacking> {
    if value.is_finite() {
        Ok(value)
    } else {
        Err(Lacking::NotANumber(what))
    }
}

/// That there are at least so many.
pub(super) fn at_least(needs: usize, has: usize, what: &'static str) -> Result<(), Lacking> {
    if has >= needs {
        Ok(())
    } else {
        Err(Lacking::TooFew { what, has, needs })
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

/// That scores of two raters stand side by side, are finite, and are at least `needs` pairs.
pub(super) fn side_by_side(first: &[f64], second: &[f64], needs: usize) -> Result<(), Lacking> {
    if first.len() != second.len() {
        return Err(Lacking::Gaps("the scores of two raters"));
    }
    at_least(needs, first.len(), "pairs of scores")?;
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
        let size = real(tied.len());
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
    tied.filter_map(|tied| Some((*tied.first()?, real(tied.len()))))
        .collect()
}
