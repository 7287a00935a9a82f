//! JCGM 106:2012 and JCGM 100:2008, examples.

use std::f64::consts::FRAC_1_SQRT_2;

use super::{chance, weighed};
use evenshod::conformity::{Certainty, repeats};
use evenshod::quantity::Exact;

/// One criterion with this scale, measured by an instrument with these figures.
fn weigh_one(scale: &str, figures: &str, reading: &str) -> Certainty {
    let rubric = super::rubric(&format!(
        r#"
[award]
pass = 1
[[instruments]]
id = "gauge"
name = "Gauge"
{figures}
[[sections]]
id = "all"
name = "All"
[[sections.criteria]]
id = "size"
name = "Size"
kind = "toleranced"
instrument = "gauge"
bands = [{{ {scale}, marks = 1 }}]
"#
    ));
    weighed(
        &rubric,
        &format!(r#"{{"readings": {{"size": ["{reading}"]}}}}"#),
    )
}

#[track_caller]
fn conforms(scale: &str, figures: &str, reading: &str, published: f64, exact: f64) {
    let certainty = weigh_one(scale, figures, reading);
    let found = chance(&certainty, "size", "1");
    assert!(
        (found - published).abs() <= 0.005,
        "{found} for {published}"
    );
    assert!((found - exact).abs() <= 1e-9, "{found} for {exact}");
    assert!((certainty.award.unwrap().pass - found).abs() < 1e-12);
}

/// JCGM 106:2012, 7.3.3, example 1 (value from memory), moved by 100 so that it reads as
/// a length: upper limit -5.40, estimate -5.47, standard uncertainty 0.05. The last number
/// is SciPy 1.17.1, `norm.cdf`.
#[test]
fn an_upper_limit() {
    conforms(
        r#"at_most = "94.60 mm""#,
        r#"standard_uncertainty = "0.05 mm""#,
        "94.53",
        0.92,
        0.919_243_340_766_228_9,
    );
}

/// JCGM 106:2012, 7.3.3, example 2 (value from memory), a tenth as large: lower limit 490,
/// estimate 509.7, standard uncertainty 8.6. The last number is SciPy's.
#[test]
fn a_lower_limit() {
    conforms(
        r#"at_least = "49 mm""#,
        r#"standard_uncertainty = "0.86 mm""#,
        "50.97",
        0.99,
        0.989_009_547_384_822_3,
    );
}

/// JCGM 106:2012, 7.4, example (value from memory): limits 12.5 and 16.3, estimate 13.6,
/// standard uncertainty 1.8. The last number is SciPy's.
#[test]
fn two_limits() {
    conforms(
        r#"from = "12.5 mm", to = "16.3 mm""#,
        r#"standard_uncertainty = "1.8 mm""#,
        "13.6",
        0.66,
        0.662_629_786_495_307_9,
    );
}

/// JCGM 106:2012, 8.3.2 (from memory): a value on the guarded limit, a guard band of
/// `r U` with `U = 2 u` inside it, conforms with probability `F(2 r)`.
#[test]
fn guard_bands() {
    let shares = [
        ("10", 0.5),
        ("9.9", 0.841_344_746_068_542_9),
        ("9.835514637", 0.95),
        ("9.8", 0.977_249_868_051_820_8),
        ("9.7", 0.998_650_101_968_369_9),
    ];
    for (reading, share) in shares {
        let found = weigh_one(
            r#"at_most = "10 mm""#,
            r#"standard_uncertainty = "0.1 mm""#,
            reading,
        );
        let found = chance(&found, "size", "1");
        assert!(
            (found - share).abs() < 1e-9,
            "{reading}: {found} for {share}"
        );
    }
    let two = [
        ("100", 0.987_580_669_348_447_7),
        ("100.3", 0.841_313_074_826_713_2),
        ("100.5", 0.499_999_713_348_428_1),
        ("100.7", 0.158_655_252_944_866_3),
    ];
    for (reading, share) in two {
        let scale = r#"from = "99.5 mm", to = "100.5 mm""#;
        let found = weigh_one(scale, r#"standard_uncertainty = "0.2 mm""#, reading);
        let found = chance(&found, "size", "1");
        assert!(
            (found - share).abs() < 1e-9,
            "{reading}: {found} for {share}"
        );
    }
}

/// JCGM 100:2008, 4.3.7 and 4.4.5 (from memory): plus or minus 4 gives 2.3.
#[test]
fn a_half_width_over_the_root_of_three() {
    let found = weigh_one(r#"at_most = "10 mm""#, r#"half_width = "4 mm""#, "9");
    let standard = found.criteria[0].value.standard() / 1e6;
    assert!((standard - 2.3).abs() < 0.05);
    assert!((standard - 4.0 / 3.0_f64.sqrt()).abs() < 1e-12);
}

/// JCGM 100:2008, 4.3.9 and 4.4.6 (from memory): plus or minus 4 gives 1.6 where small errors
/// are likelier. The other divisors: JCGM 100:2008, 4.3.9, and the arcsine (from memory),
/// recomputed by numpy 2.4.6 for the half-width 1 and the level share 0.5.
#[test]
fn a_half_width_has_the_standard_uncertainty_of_its_shape() {
    let standard = |shape: &str| {
        let found = weigh_one(r#"at_most = "10 mm""#, shape, "9");
        found.criteria[0].value.standard() / 1e6
    };
    let four = standard("half_width = 4\nshape = \"triangular\"");
    assert!((four - 1.6).abs() < 0.05, "{four}");
    for (shape, wanted) in [
        ("shape = \"rectangular\"", 0.577_350_269_2),
        ("shape = \"triangular\"", 0.408_248_290_5),
        ("shape = \"u-shaped\"", FRAC_1_SQRT_2),
        ("shape = \"trapezoid\"\nlevel_share = 0.5", 0.456_435_464_6),
        // The ends of a trapezoid are the triangle and the rectangle.
        ("shape = \"trapezoid\"\nlevel_share = 0", 0.408_248_290_5),
        ("shape = \"trapezoid\"\nlevel_share = 1", 0.577_350_269_2),
    ] {
        let found = standard(&format!("half_width = 1\n{shape}"));
        assert!((found - wanted).abs() < 1e-9, "{shape}: {found}");
    }
}

/// JCGM 100:2008, F.2.2.1 (from memory): an indication with the resolution 0.01 lies within
/// half of it, which gives 0.29 times the resolution.
#[test]
fn a_resolution_over_the_root_of_twelve() {
    let found = weigh_one(r#"at_most = "10 mm""#, r#"half_width = "0.005 mm""#, "9.99");
    let standard = found.criteria[0].value.standard() / 1e6;
    assert!((standard - 0.01 * 0.29).abs() < 0.000_05);
    assert!((standard - 0.01 / 12.0_f64.sqrt()).abs() < 1e-12);
}

/// JCGM 100:2008, 4.4.3, twenty temperatures (data and results from memory; recomputed by
/// numpy 2.4.6): mean 100.14, standard deviation 1.489, of the mean 0.333.
#[test]
fn repeats_scatter_as_in_the_published_example() {
    let typed = "96.90 98.18 98.25 98.61 99.03 99.49 99.56 99.74 99.89 100.07 100.33 100.42 \
                 100.68 100.95 101.11 101.20 101.57 101.84 102.36 102.72";
    let values: Vec<Exact> = typed.split(' ').map(|one| one.parse().unwrap()).collect();
    let found = repeats(&values).unwrap();
    assert!((found.mean - 100.145).abs() < 1e-9);
    assert!((found.deviation - 1.488_844_483).abs() < 1e-9);
    assert!((found.of_mean - 0.332_915_747_2).abs() < 1e-9);
    assert_eq!(repeats(&values[..1]), None);
}
