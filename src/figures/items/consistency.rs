use std::f64::consts::PI;

use serde::Serialize;

use super::super::Lacking;
use super::super::chance::normal_below;
use super::super::integral::simpson;
use super::super::numbers::all_finite;

/// How far passing and failing can be relied on.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct PassReliability {
    /// The share expected to pass.
    pub passing: f64,
    /// Consistency: the share that two like examinations would decide alike.
    pub consistency: f64,
    /// The consistency that chance alone would give.
    pub by_chance: f64,
    /// Consistency above that of chance, as a share of what chance leaves (kappa); nothing
    /// where all pass or all fail.
    pub kappa: Option<f64>,
    /// Accuracy: the share whose decision is that of the true score.
    pub accuracy: f64,
    /// The share that pass though their true score does not.
    pub false_passes: f64,
    /// The share that fail though their true score passes.
    pub false_fails: f64,
}

/// Reliability of a pass decision from mean, standard deviation and reliability of totals.
///
/// *Index:* Peng and Subkoviak 1980, the normal approximation to the beta-binomial index of
/// Huynh 1976: two examinations are bivariate normal with the reliability as correlation;
/// accuracy takes true and observed score as bivariate normal with its root. Chosen over
/// Livingston and Lewis 1995, as it needs no four-parameter beta fit, which has no solution
/// for many small groups, and as marks in tenths or halves of a hundred are near enough to
/// continuous. It is less good for few items and for totals crowded at an end.
///
/// `pass` is the lowest total that passes and `step` the distance between totals that can be
/// had: half of it is taken off `pass`, as the approximation wants, for whole numbers 1, for
/// totals on a continuous scale 0. All are in the unit of the totals.
///
/// # Errors
///
/// A number that is not finite, a deviation that is not above 0, a negative step, a
/// reliability that is not above 0 or is above 1.
pub fn pass_reliability(
    mean: f64,
    deviation: f64,
    reliability: f64,
    pass: f64,
    step: f64,
) -> Result<PassReliability, Lacking> {
    all_finite(&[mean, pass], "a total")?;
    if !(deviation > 0.0 && deviation.is_finite()) {
        return Err(Lacking::NoSpread("totals"));
    }
    if !(step >= 0.0 && step.is_finite()) {
        return Err(Lacking::NotANumber("the step of totals"));
    }
    if !(reliability > 0.0 && reliability <= 1.0) {
        return Err(Lacking::NotANumber("the reliability"));
    }
    let limit = (pass - 0.5 * step - mean) / deviation;
    all_finite(&[limit], "a pass mark so far away")?;
    let failing = normal_below(limit);
    let passing = normal_below(-limit);
    let both_fail = both_below(limit, limit, reliability);
    // Two that differ are failed once and passed once.
    let consistency = 1.0 - 2.0 * (failing - both_fail);
    let by_chance = failing * failing + passing * passing;
    let root = reliability.sqrt();
    let truly = both_below(limit, limit / root, root);
    let truly_failing = normal_below(limit / root);
    let false_fails = (failing - truly).max(0.0);
    let false_passes = (truly_failing - truly).max(0.0);
    let left = 1.0 - by_chance;
    Ok(PassReliability {
        passing,
        consistency,
        by_chance,
        kappa: (left > 1e-12).then(|| (consistency - by_chance) / left),
        accuracy: 1.0 - false_fails - false_passes,
        false_passes,
        false_fails,
    })
}

/// Probability that two standard normal values with this correlation, above 0, are below
/// `a` and `b`: the product of their own probabilities and
/// `1 / 2 pi` times the integral of `exp(-(a^2 - 2 a b sin t + b^2) / (2 cos^2 t))` over `t`
/// from 0 to the arcsine of the correlation (Plackett 1954; Drezner and Wesolowsky 1990), by
/// Simpson's rule.
fn both_below(a: f64, b: f64, correlation: f64) -> f64 {
    const STEPS: usize = 400;
    let area = simpson(0.0, correlation.asin(), STEPS, |t| {
        // At a right angle the two are one, and so are their limits.
        let (sine, cosine) = t.min(0.5 * PI - 1e-7).sin_cos();
        // As sum of squares, which stays exact where the cosine is small.
        let apart = (a - b * sine) / cosine;
        (-0.5 * (apart * apart + b * b)).exp()
    });
    normal_below(a) * normal_below(b) + area / (2.0 * PI)
}
