//! Whatever the numbers: a finite figure or a reason, and what does not matter changes nothing.

use evenshod::figures::trend::{
    Curve, cusum, ewma, fit, individuals, mann_kendall, next_piece, theil_sen,
};
use evenshod::figures::{Interval, Line};
use proptest::prelude::*;

fn values() -> impl Strategy<Value = Vec<f64>> {
    let number = prop_oneof![
        (0_i32..12).prop_map(f64::from),
        -1e6..1e6f64,
        Just(f64::NAN),
        Just(f64::INFINITY),
        Just(1e300),
    ];
    prop::collection::vec(number, 0..14)
}

fn calm() -> impl Strategy<Value = Vec<f64>> {
    prop::collection::vec((0_i32..60).prop_map(f64::from), 5..14)
}

fn in_order(values: &[f64]) -> Vec<(f64, f64)> {
    (1..).map(f64::from).zip(values.iter().copied()).collect()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(128))]

    #[test]
    fn no_figure_is_half_a_figure(values in values()) {
        let points = in_order(&values);
        let (places, heights): (Vec<f64>, Vec<f64>) = points.iter().copied().unzip();
        if let Ok(found) = Line::fit(&places, &heights) {
            prop_assert!(!found.slope.is_nan() && !found.residual.is_nan());
        }
        if let Ok(found) = theil_sen(&points, 0.95) {
            prop_assert!(!found.slope.is_nan() && found.interval.low <= found.interval.high);
        }
        if let Ok(found) = mann_kendall(&values) {
            prop_assert!((-1.0..=1.0).contains(&found.tau) && (0.0..=1.0).contains(&found.chance));
        }
        if let Ok(found) = next_piece(&values, 100.0, 0.6, 0.9) {
            prop_assert!((0.0..=1.0).contains(&found.passes));
            let Interval { low, high, .. } = found.interval;
            prop_assert!(low <= found.share && found.share <= high);
        }
        if let Ok(found) = individuals(&values) {
            prop_assert!(found.low <= found.mean && found.mean <= found.high);
        }
        if let Ok(found) = ewma(&values, 0.0, 1.0, 0.2, 3.0) {
            prop_assert_eq!(found.len(), values.len());
        }
        if let Ok(found) = cusum(&values, 0.0, 0.5, 4.0) {
            prop_assert!(found.high.iter().chain(&found.low).all(|sum| *sum >= 0.0));
        }
        for curve in [Curve::Power, Curve::PracticePower] {
            if let Ok(found) = fit(curve, &points) {
                prop_assert!(found.values.iter().all(|value| value.is_finite()));
            }
        }
    }

    /// Another unit, another zero and the way back.
    #[test]
    fn trends_by_rank_follow_the_values(values in calm(), scale in 1_i32..9, zero in -50_i32..50) {
        let (scale, zero) = (f64::from(scale), f64::from(zero));
        let other: Vec<f64> = values.iter().map(|value| value * scale + zero).collect();
        let back: Vec<f64> = values.iter().rev().copied().collect();
        let one = theil_sen(&in_order(&values), 0.9).unwrap();
        let scaled = theil_sen(&in_order(&other), 0.9).unwrap();
        let turned = theil_sen(&in_order(&back), 0.9).unwrap();
        prop_assert!((scaled.slope - scale * one.slope).abs() < 1e-9);
        prop_assert!((turned.slope + one.slope).abs() < 1e-9);
        if let Ok(found) = mann_kendall(&values) {
            let scaled = mann_kendall(&other).unwrap();
            prop_assert!((scaled.z - found.z).abs() < 1e-12);
            prop_assert!((mann_kendall(&back).unwrap().z + found.z).abs() < 1e-12);
        }
    }
}
