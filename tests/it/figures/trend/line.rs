//! NIST StRD, Norris (certified values): <https://www.itl.nist.gov/div898/strd/lls/data/Norris.shtml>

use evenshod::figures::Line;

use crate::figures::near::near;

const Y: [f64; 36] = [
    0.1, 338.8, 118.1, 888.0, 9.2, 228.1, 668.5, 998.5, 449.1, 778.9, 559.2, 0.3, 0.1, 778.1,
    668.8, 339.3, 448.9, 10.8, 557.7, 228.3, 998.0, 888.8, 119.6, 0.3, 0.6, 557.6, 339.3, 888.0,
    998.5, 778.9, 10.2, 117.6, 228.9, 668.4, 449.2, 0.2,
];
const X: [f64; 36] = [
    0.2, 337.4, 118.2, 884.6, 10.1, 226.5, 666.3, 996.3, 448.6, 777.0, 558.2, 0.4, 0.6, 775.5,
    666.9, 338.0, 447.5, 11.6, 556.0, 228.1, 995.8, 887.6, 120.2, 0.3, 0.3, 556.8, 339.1, 887.2,
    999.0, 779.0, 11.1, 118.3, 229.2, 669.1, 448.9, 0.5,
];

#[test]
fn the_line_has_the_certified_values() {
    let found = Line::fit(&X, &Y).unwrap();
    near(found.intercept, -0.262323073774029, 1e-10);
    near(found.slope, 1.00211681802045, 1e-13);
    near(found.standard_error_at(0.0), 0.232818234301152, 1e-10);
    // The t quantile for 34 degrees of freedom is SciPy's.
    let slope = found.slope_interval(0.95).unwrap();
    let half = (slope.high - slope.low) / 2.0;
    near(half, 2.032244509317719 * 0.429796848199937e-3, 1e-9);
    near(found.residual, 0.884796396144373, 1e-10);
    near(found.r_squared.unwrap(), 0.999993745883712, 1e-12);
}

#[test]
fn points_at_one_place_have_no_line() {
    assert!(Line::fit(&[1.0, 1.0, 1.0], &[2.0, 3.0, 4.0]).is_err());
    assert!(Line::fit(&[1.0, 2.0], &[2.0, 3.0]).is_err());
    assert!(Line::fit(&[1.0, 2.0, 3.0], &[2.0, f64::NAN, 1.0]).is_err());
}
