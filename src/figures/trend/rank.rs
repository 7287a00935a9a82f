use serde::Serialize;

use crate::figures::chance::{normal_beyond, normal_quantile};
use crate::figures::numbers::{
    all_finite, at_least, confidence, mean, median, number, quantile, runs,
};
use crate::figures::{Interval, Lacking};

/// A slope that a few stray values do not turn.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct TheilSen {
    /// The median of the slopes between all pairs of points at different places.
    pub slope: f64,
    /// Median of the values less the slope times the median of the places (Conover 1980).
    pub intercept: f64,
    /// Interval of the slope by ranks.
    pub interval: Interval,
}

/// The slope of Theil (1950) and Sen (1968), with Sen's interval at `level`: the slopes
/// whose ranks lie as far from the middle as Kendall's score scatters by chance, ties
/// taken off.
///
/// *Source:* Sen, J. Am. Stat. Assoc. 63 (1968) 1379, equation 2.6.
///
/// *Errors:* fewer than three points, all at one place, a number that is not finite, or a
/// level that is no share.
pub fn theil_sen(points: &[(f64, f64)], level: f64) -> Result<TheilSen, Lacking> {
    at_least(points.len(), 3, "points")?;
    confidence(level)?;
    let (xs, ys): (Vec<f64>, Vec<f64>) = points.iter().copied().unzip();
    all_finite(&xs, "places")?;
    all_finite(&ys, "values")?;
    let mut slopes = slopes(points);
    slopes.sort_by(f64::total_cmp);
    let nothing = Lacking::NoSpread("places");
    let slope = quantile(&slopes, 0.5);
    let off = normal_quantile((1.0 - level) / 2.0)? * score_variance(&[&xs, &ys]).sqrt();
    let pairs = number(slopes.len());
    let low = ((pairs - off) / 2.0).round_ties_even() - 1.0;
    let high = ((pairs + off) / 2.0).round_ties_even();
    let at = |rank: f64| {
        let last = slopes.len().saturating_sub(1);
        let rank = num_traits::ToPrimitive::to_usize(&rank.max(0.0)).unwrap_or(last);
        slopes.get(rank.min(last)).copied()
    };
    let (low, high) = at(low).zip(at(high)).ok_or(nothing)?;
    Ok(TheilSen {
        slope,
        intercept: median(&ys) - slope * median(&xs),
        interval: Interval { low, high, level },
    })
}

fn slopes(points: &[(f64, f64)]) -> Vec<f64> {
    let pairs = points.iter().enumerate().flat_map(|(at, one)| {
        let others = points.iter().skip(at + 1);
        others.map(move |other| (one, other))
    });
    let apart = pairs.filter(|((x, _), (other, _))| x != other);
    apart
        .map(|((x1, y1), (x2, y2))| (y2 - y1) / (x2 - x1))
        .collect()
}

/// Variance of Kendall's score of so many values, ties in each of the rows taken off.
fn score_variance(rows: &[&[f64]]) -> f64 {
    let of = |many: f64| many * (many - 1.0) * (2.0 * many + 5.0);
    let many = rows.first().map_or(0.0, |row| number(row.len()));
    let tied = rows.iter().flat_map(|row| sizes_of_ties(row));
    let tied: f64 = tied.map(of).sum();
    ((of(many) - tied) / 18.0).max(0.0)
}

/// How many there are of each value; where there is but one, it takes nothing off.
fn sizes_of_ties(values: &[f64]) -> Vec<f64> {
    let mut sorted = values.to_vec();
    sorted.sort_by(f64::total_cmp);
    runs(&sorted).into_iter().map(|(_, many)| many).collect()
}

/// Whether values rise or fall over their order, by ranks alone.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct MannKendall {
    /// Pairs that rise less pairs that fall.
    pub score: f64,
    /// Variance of the score by chance, ties taken off.
    pub variance: f64,
    /// The score less one towards 0, over its standard deviation; 0 for a score of 0.
    pub z: f64,
    /// Kendall's tau-b: the score over what it could be with these ties.
    pub tau: f64,
    /// How often chance alone gives a score as far from 0, by the normal distribution.
    pub chance: f64,
    /// Correlation of each value with the next one; far from 0, the chance is too small.
    pub lag_one: f64,
    /// Whether `lag_one` is farther from 0 than chance makes it once in twenty.
    pub is_serial: bool,
}

/// The test of Mann (1945) and Kendall (1975) with ties, on values in their order.
///
/// *Source:* Gilbert, Statistical Methods for Environmental Pollution Monitoring (1987),
/// 16.4; tau-b: Kendall, Biometrika 33 (1945) 239.
///
/// *Errors:* fewer than four values, all alike, or a number that is not finite.
pub fn mann_kendall(values: &[f64]) -> Result<MannKendall, Lacking> {
    at_least(values.len(), 4, "values")?;
    all_finite(values, "values")?;
    let mut score = 0.0;
    for (at, one) in values.iter().enumerate() {
        let later = values.iter().skip(at + 1);
        score += later.map(|other| sign(other - one)).sum::<f64>();
    }
    let variance = score_variance(&[values]);
    if variance <= 0.0 {
        return Err(Lacking::NoSpread("values"));
    }
    let z = (score - sign(score)) / variance.sqrt();
    let many = number(values.len());
    let pairs = many * (many - 1.0) / 2.0;
    let tied = sizes_of_ties(values).into_iter();
    let tied: f64 = tied.map(|many| many * (many - 1.0) / 2.0).sum();
    let lag_one = lag_one(values)?;
    Ok(MannKendall {
        score,
        variance,
        z,
        tau: score / (pairs * (pairs - tied)).sqrt(),
        chance: normal_beyond(z),
        lag_one,
        is_serial: lag_one.abs() > normal_quantile(0.025)? / many.sqrt(),
    })
}

/// 1 above 0, -1 below, and 0 for 0 itself, which `signum` has a sign for.
fn sign(value: f64) -> f64 {
    if value == 0.0 { 0.0 } else { value.signum() }
}

/// Correlation of each value with the next one, by deviations from the mean of all.
///
/// *Source:* NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.5.12; tests hold it to the
/// certified values of NIST StRD, Michelso and NumAcc.
///
/// *Errors:* fewer than three values, all alike, or a number that is not finite.
pub fn lag_one(values: &[f64]) -> Result<f64, Lacking> {
    at_least(values.len(), 3, "values")?;
    all_finite(values, "values")?;
    let mean = mean(values);
    let spread: f64 = values.iter().map(|value| (value - mean).powi(2)).sum();
    if spread <= 0.0 {
        return Err(Lacking::NoSpread("values"));
    }
    let pairs = values.iter().zip(values.iter().skip(1));
    let both: f64 = pairs.map(|(one, next)| (one - mean) * (next - mean)).sum();
    Ok(both / spread)
}
