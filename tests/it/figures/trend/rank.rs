//! Trends by rank.

use evenshod::figures::trend::{lag_one, mann_kendall, theil_sen};

use crate::figures::near::{near, within};

fn in_order(values: &[f64]) -> Vec<(f64, f64)> {
    (0..).map(f64::from).zip(values.iter().copied()).collect()
}

/// Helsel and Hirsch, Statistical Methods in Water Resources (1992), 8.2, example 1 (from
/// memory): S = 21, tau = 0.47. The rest by SciPy 1.17 and pymannkendall 1.4.3.
#[test]
fn the_score_without_ties() {
    let found = mann_kendall(&[1.22, 2.2, 4.8, 1.28, 1.97, 1.46, 2.64, 2.34, 4.84, 2.96]).unwrap();
    near(found.score, 21.0, 1e-15);
    within(found.tau, 0.47, 0.005);
    near(found.variance, 125.0, 1e-12);
    near(found.z, 1.788854382, 1e-9);
    near(found.chance, 0.07363827012, 1e-9);
    assert!(!found.is_serial);
}

/// Helsel and Hirsch, 10.1 (from memory): one stray value turns nothing.
#[test]
fn one_stray_value_does_not_turn_the_slope() {
    let values = [1.0, 2.0, 3.0, 4.0, 5.0, 16.0, 7.0];
    let points: Vec<(f64, f64)> = (1..).map(f64::from).zip(values).collect();
    let found = theil_sen(&points, 0.95).unwrap();
    near(found.slope, 1.0, 1e-12);
    within(found.intercept, 0.0, 1e-12);
    // SciPy 1.17, theilslopes.
    near(found.interval.low, 1.0, 1e-9);
    near(found.interval.high, 3.5, 1e-9);
}

/// Our own numbers, by pymannkendall 1.4.3 and SciPy 1.17; tau is tau-b, where pymannkendall
/// gives tau-a although there are ties.
#[test]
fn ties_are_taken_off() {
    let values = [
        62.0, 60.0, 65.0, 65.0, 68.0, 66.0, 70.0, 70.0, 74.0, 73.0, 78.0, 76.0,
    ];
    let found = mann_kendall(&values).unwrap();
    near(found.score, 56.0, 1e-15);
    near(found.variance, 210.6666667, 1e-9);
    near(found.z, 3.7893505, 1e-9);
    near(found.chance, 0.0001510416774, 1e-8);
    near(found.tau, 0.8616404369, 1e-9);
    let slope = theil_sen(&in_order(&values), 0.95).unwrap();
    near(slope.slope, 1.5, 1e-12);
    near(slope.intercept, 60.75, 1e-12);
    near(slope.interval.low, 1.142857143, 1e-9);
    near(slope.interval.high, 1.8, 1e-9);
}

/// NIST StRD, NumAcc1 to NumAcc4 (certified values).
#[test]
fn neighbours_correlate_as_certified() {
    let alternating = |base: f64| {
        let others = (0..1000).map(move |at| if at % 2 == 0 { base - 0.1 } else { base + 0.1 });
        std::iter::once(base).chain(others).collect::<Vec<f64>>()
    };
    near(
        lag_one(&[10_000_001.0, 10_000_003.0, 10_000_002.0]).unwrap(),
        -0.5,
        1e-12,
    );
    near(lag_one(&alternating(1.2)).unwrap(), -0.999, 1e-12);
    near(lag_one(&alternating(1_000_000.2)).unwrap(), -0.999, 1e-8);
    near(lag_one(&alternating(10_000_000.2)).unwrap(), -0.999, 1e-7);
}

#[test]
fn a_row_that_goes_in_waves_is_told() {
    let waves: Vec<f64> = (0..24).map(|at| (f64::from(at) * 0.3).sin()).collect();
    assert!(mann_kendall(&waves).unwrap().is_serial);
    assert!(mann_kendall(&[3.0; 8]).is_err() && theil_sen(&[(1.0, 1.0); 5], 0.95).is_err());
}
