//! NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.

use evenshod::figures::trend::{cusum, ewma, individuals};

use crate::figures::near::{near, within};

/// 6.3.2.2: mean 50.81, limits 55.8041 and 45.8159.
#[test]
fn single_values_have_the_handbooks_limits() {
    let values = [49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1];
    let found = individuals(&values).unwrap();
    near(found.mean, 50.81, 1e-12);
    within(found.mean_range, 1.8778, 6e-5);
    within(found.high, 55.8041, 2e-4);
    within(found.low, 45.8159, 2e-4);
    near(found.high_range, 6.1347, 1e-4);
    assert!(individuals(&[2.0; 9]).is_err() && individuals(&values[..4]).is_err());
}

/// 6.3.2.4: averages with a weight of 0.3 around 50, and the limits far along; the first
/// limits by the exact formula.
#[test]
fn weighted_averages_are_the_handbooks() {
    let values = [
        52.0, 47.0, 53.0, 49.3, 50.1, 47.0, 51.0, 50.1, 51.2, 50.5, 49.6, 47.6, 49.9, 51.3, 47.8,
        51.2, 52.6, 52.4, 53.6, 52.1,
    ];
    let known = [
        50.6, 49.52, 50.56, 50.18, 50.16, 49.21, 49.75, 49.85, 50.26, 50.33, 50.11, 49.36, 49.52,
        50.05, 49.38, 49.92, 50.73, 51.23, 51.94, 51.99,
    ];
    let found = ewma(&values, 50.0, 2.0539, 0.3, 3.0).unwrap();
    for (found, known) in found.iter().zip(known) {
        within(found.value, known, 0.0051);
    }
    let last = found.last().unwrap();
    within(last.high, 52.5884, 2e-3);
    within(last.low, 47.4115, 2e-3);
    for (found, known) in found.iter().zip([1.84851, 2.256394012, 2.431405571]) {
        near(found.high - 50.0, known, 1e-9);
        near(50.0 - found.low, known, 1e-9);
    }
    assert!(
        ewma(&values, 50.0, 0.0, 0.3, 3.0).is_err() && ewma(&values, 50.0, 1.0, 1.5, 3.0).is_err()
    );
}

/// 6.3.2.3 (data and sums from memory): the first signal is at the 14th value.
#[test]
fn sums_add_up_as_in_the_handbook() {
    let values = [
        324.925, 324.675, 324.725, 324.350, 325.350, 325.225, 324.125, 324.525, 325.225, 324.600,
        324.625, 325.150, 328.325, 327.250, 327.825, 328.500, 326.675, 327.775, 326.875, 328.350,
    ];
    let found = cusum(&values, 325.0, 0.3175, 4.1959).unwrap();
    let high = [3.01, 4.94, 7.45, 10.63, 11.99, 14.44, 16.0, 19.04];
    for (found, known) in found.high[12..].iter().zip(high) {
        within(*found, known, 0.011);
    }
    let low = [0.0, 0.01, 0.0, 0.33, 0.0, 0.0, 0.56, 0.72, 0.17, 0.25, 0.31];
    for (found, known) in found.low.iter().zip(low) {
        within(*found, known, 0.011);
    }
    near(found.high[19], 19.035, 1e-9);
    assert_eq!(found.first, Some(13));
    assert_eq!(cusum(&[325.0; 4], 325.0, 0.3, 4.0).unwrap().first, None);
}
