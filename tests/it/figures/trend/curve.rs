//! NIST StRD, nonlinear regression (certified values), and SciPy's curve_fit.

use evenshod::figures::trend::{Curve, Fit, fit, practice};

use crate::figures::near::near;

fn pairs(xs: &[f64], ys: &[f64]) -> Vec<(f64, f64)> {
    xs.iter().copied().zip(ys.iter().copied()).collect()
}

#[track_caller]
fn hold(found: &Fit, values: &[f64], errors: &[f64], left: f64, share: f64) {
    for (found, known) in found.values.iter().zip(values) {
        near(*found, *known, share);
    }
    for (found, known) in found.errors.iter().zip(errors) {
        near(*found, *known, share * 10.0);
    }
    near(found.left, left, share);
}

/// DanWood.
#[test]
fn a_power_law_has_the_certified_values() {
    let points = pairs(
        &[1.309, 1.471, 1.490, 1.565, 1.611, 1.680],
        &[2.138, 3.421, 3.597, 4.340, 4.882, 5.660],
    );
    let found = fit(Curve::Power, &points).unwrap();
    let values = [7.6886226176E-01, 3.8604055871E+00];
    let errors = [1.8281973860E-02, 5.1726610913E-02];
    hold(&found, &values, &errors, 4.3173084083E-03, 1e-8);
}

/// Misra1a.
#[test]
fn an_approach_has_the_certified_values() {
    let points = pairs(
        &[
            77.6, 114.9, 141.1, 190.8, 239.9, 289.0, 332.8, 378.4, 434.8, 477.3, 536.8, 593.1,
            689.1, 760.0,
        ],
        &[
            10.07, 14.73, 17.94, 23.93, 29.61, 35.18, 40.02, 44.82, 50.76, 55.05, 61.01, 66.40,
            75.47, 81.78,
        ],
    );
    let found = fit(Curve::Approach, &points).unwrap();
    let values = [2.3894212918E+02, 5.5015643181E-04];
    let errors = [2.7070075241E+00, 7.2668688436E-06];
    hold(&found, &values, &errors, 1.2455138894E-01, 1e-8);
}

/// Minutes of our own, by SciPy 1.17.
#[test]
fn curves_of_practice_are_scipys() {
    let minutes = [60.0, 48.5, 40.9, 37.8, 34.1, 32.6, 30.2, 29.4];
    let points: Vec<(f64, f64)> = (1..).map(f64::from).zip(minutes).collect();
    let power = fit(Curve::PracticePower, &points).unwrap();
    let values = [-12.17359406, 72.34416323, 0.2709505534];
    hold(&power, &values, &[], 1.614252723, 1e-5);
    let exponential = fit(Curve::PracticeExponential, &points).unwrap();
    let values = [28.16621115, 31.58467555, 0.4250683995];
    hold(&exponential, &values, &[], 2.195839155, 1e-5);
    assert!((exponential.at(9.0) - 29.2).abs() < 0.1);
    // The power law leaves less.
    assert_eq!(practice(&points).unwrap(), power);
}

/// What is left over the exponential alone tells which is laid; the floor of an exact one is
/// its own, and its interval holds it.
#[test]
fn the_better_curve_is_laid_and_its_floor_told() {
    let off = [0.2, -0.3, 0.1, 0.2, -0.2, 0.1, -0.1, 0.0];
    let points: Vec<(f64, f64)> = (1..)
        .map(f64::from)
        .zip(off)
        .map(|(at, off)| (at, 22.0 + 12.0 * (-0.6 * (at - 1.0)).exp() + off))
        .collect();
    let found = practice(&points).unwrap();
    assert_eq!(found.curve, Curve::PracticeExponential);
    let power = fit(Curve::PracticePower, &points).unwrap();
    assert!(found.left < power.left);
    let (floor, interval) = found.floor(0.95).unwrap();
    assert!((floor - 22.0).abs() < 0.3, "{floor}");
    assert!(interval.low < 22.0 && 22.0 < interval.high);
    // Half the width over the standard error: t on 8 - 3 degrees of freedom.
    let width = (interval.high - floor) / found.errors[0];
    assert!((width - 2.570_582).abs() < 1e-5, "{width}");
    assert!(found.floor(1.0).is_err());
    let other = fit(Curve::Power, &points).unwrap();
    assert!(other.floor(0.95).is_err());
    assert!(practice(&points[..3]).is_err());
}

#[test]
fn what_does_not_bend_has_no_curve() {
    let straight: Vec<(f64, f64)> = (1..9).map(|at| (f64::from(at), f64::from(-at))).collect();
    assert!(fit(Curve::PracticeExponential, &straight).is_err());
    assert!(fit(Curve::PracticePower, &[(1.0, 5.0); 6]).is_err());
    assert!(fit(Curve::Power, &[(0.0, 1.0), (1.0, 2.0), (2.0, 3.0)]).is_err());
    assert!(fit(Curve::PracticePower, &straight[..4]).is_err());
}
