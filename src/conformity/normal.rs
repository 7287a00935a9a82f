//! The normal distribution, and what is made of it here.

use std::f64::consts::{FRAC_1_SQRT_2, PI};

/// How many standard deviations are looked at: past them lies less than 1e-12.
pub(super) const REACH: f64 = 7.2;

/// Density of the standard normal distribution.
pub(super) fn density(z: f64) -> f64 {
    (-0.5 * z * z).exp() / (2.0 * PI).sqrt()
}

/// Distribution function of the standard normal distribution, by the complementary
/// error function: `erfc(-z / sqrt 2) / 2`.
pub(super) fn below(z: f64) -> f64 {
    0.5 * libm::erfc(-z * FRAC_1_SQRT_2)
}

/// Probability that a normal value with mean 0 and standard deviation `sd` is at most
/// `x`; a step at 0 where `sd` is nothing.
pub(super) fn normal_below(x: f64, sd: f64) -> f64 {
    if sd > 0.0 {
        below(x / sd)
    } else if x < 0.0 {
        0.0
    } else {
        1.0
    }
}

/// Probability that the sum of an even value between `-half` and `half` and a normal one
/// with standard deviation `sd` is at most `x`.
///
/// *Formula:* `sd / 2 half * (G((x + half) / sd) - G((x - half) / sd))` with
/// `G(z) = z below(z) + density(z)`, which is the integral of `below`.
pub(super) fn flat_below(x: f64, half: f64, sd: f64) -> f64 {
    if half <= 0.0 {
        return normal_below(x, sd);
    }
    if sd <= 0.0 {
        return (0.5 + 0.5 * x / half).clamp(0.0, 1.0);
    }
    let integral = |z: f64| z * below(z) + density(z);
    let share = integral((x + half) / sd) - integral((x - half) / sd);
    (share * sd / (2.0 * half)).clamp(0.0, 1.0)
}

/// Probability that the range (largest less smallest) of independent normal values, each
/// with its mean and standard deviation, is at most `range`.
///
/// *Formula:* the sum over `i` of the integral of the density of value `i`, as the
/// smallest, times the product over the others of the probability to lie between it and
/// `range` more (H. A. David and H. N. Nagaraja, Order Statistics, 3rd edition 2003, 2.3,
/// here for unlike means; cited from memory). By the trapezoidal rule, whose error for such
/// integrands falls faster than any power of the step.
pub(super) fn range_below(range: f64, members: &[(f64, f64)]) -> f64 {
    const STEP: f64 = 0.2;
    const REACH: i32 = 42;
    if range < 0.0 {
        return 0.0;
    }
    let (fixed, random): (Vec<_>, Vec<_>) = members
        .iter()
        .enumerate()
        .partition(|(_, (_, sd))| *sd <= 0.0);
    let others = |index: usize, smallest: f64| -> f64 {
        let others = members.iter().enumerate().filter(|(at, _)| *at != index);
        others
            .map(|(_, (mean, sd))| {
                let up_to = normal_below(smallest + range - mean, *sd);
                // A fixed value at the smallest itself lies within.
                let under = if *sd > 0.0 {
                    normal_below(smallest - mean, *sd)
                } else {
                    f64::from(u8::from(smallest > *mean))
                };
                (up_to - under).max(0.0)
            })
            .product()
    };
    let smallest_random = random.iter().map(|(index, (mean, sd))| {
        let nodes = (-REACH..=REACH).map(|node| {
            let z = f64::from(node) * STEP;
            density(z) * STEP * others(*index, mean + sd * z)
        });
        nodes.sum::<f64>()
    });
    let total: f64 = smallest_random.sum();
    // Of equal fixed values the first stands for all.
    let least = fixed
        .iter()
        .min_by(|(_, (a, _)), (_, (b, _))| a.total_cmp(b));
    let smallest_fixed = least.map_or(0.0, |(index, (mean, _))| others(*index, *mean));
    (total + smallest_fixed).clamp(0.0, 1.0)
}
