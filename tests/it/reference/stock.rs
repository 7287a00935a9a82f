//! Mass of bars against published and recomputed numbers.

use evenshod::plan::steel::{bar_mass, bar_mass_by_handbook, bumped_thickness};
use evenshod::quantity::{Length, Mass, Unit};

fn length(text: &str) -> Length {
    Length::read(text).unwrap()
}

fn mass(long: &str, wide: &str, thick: &str) -> Mass {
    bar_mass(length(long), length(wide), length(thick)).unwrap()
}

fn in_unit(mass: Mass, unit: Unit) -> f64 {
    mass.quantity().base.over(unit.in_base()).unwrap().to_f64()
}

#[track_caller]
fn near(value: f64, expected: f64, within: f64) {
    assert!((value - expected).abs() <= within, "{value} for {expected}");
}

/// Source: 7850 kg/m³ recomputed with the exact inch and pound.
#[test]
fn density_by_the_inch_and_the_foot() {
    near(
        in_unit(mass("1 in", "1 in", "1 in"), Unit::Pound),
        0.283_599,
        1e-6,
    );
    near(
        in_unit(mass("12 in", "12 in", "12 in"), Unit::Pound),
        490.059,
        1e-3,
    );
}

/// Source: recomputed from 7850 kg/m³; 0.956 lb/ft is the rule 3.4 W T of section tables
/// (0.95625).
#[test]
fn a_foot_and_a_metre_of_3_8_by_3_4() {
    near(
        in_unit(mass("12 in", "3/4", "3/8"), Unit::Pound),
        0.9571,
        1e-4,
    );
    let rule = bar_mass_by_handbook(length("12 in"), length("3/4"), length("3/8")).unwrap();
    near(in_unit(rule, Unit::Pound), 0.956_25, 5e-7);
    near(
        in_unit(mass("1 m", "3/4", "3/8"), Unit::Kilogram),
        1.4244,
        1e-4,
    );
}

/// Source: a steel-weight table prints 33.99 lb for 1/2 by 2 by 120 in at 0.2833 lb/in³, which is
/// 33.996; 7850 kg/m³ is 0.1 % more.
#[test]
fn a_bar_of_ten_feet() {
    near(
        in_unit(mass("120 in", "2 in", "1/2"), Unit::Pound),
        33.996 * 0.283_599 / 0.2833,
        1e-2,
    );
}

/// Source: cuts and sections of the Michigan Horseshoers Association, contest divisions and rules,
/// and of a Californian draft-shoeing competition of 2017; masses recomputed.
#[test]
fn contest_cuts_in_grams() {
    for (long, wide, thick, grams, within) in [
        ("14 in", "3/4", "3/8", 506.5, 0.2),
        ("12 in", "3/4", "3/8", 434.2, 0.2),
        ("11 1/2 in", "3/4", "3/8", 416.1, 0.2),
        ("14 in", "3/4", "5/16", 422.1, 0.2),
        ("16 in", "1 in", "1/2", 1029.1, 0.5),
        ("18 in", "1 1/4 in", "1/2", 1447.2, 0.5),
    ] {
        near(in_unit(mass(long, wide, thick), Unit::Gram), grams, within);
    }
    near(
        in_unit(mass("14 in", "3/4", "3/8"), Unit::Pound),
        1.1167,
        5e-4,
    );
}

/// Source: sections of the Open European/Danish Championship, Herning 2016; masses recomputed.
#[test]
fn metric_sections_by_the_metre() {
    near(
        in_unit(mass("1 m", "25", "10"), Unit::Kilogram),
        1.9625,
        1e-4,
    );
    near(
        in_unit(mass("1 m", "25", "8"), Unit::Kilogram),
        1.5700,
        1e-4,
    );
}

/// Source: a case told in a trade forum, recomputed by constant volume: 16 in of 3/8 by 1 in bumped to
/// 15 in, the width kept.
#[test]
fn a_bumped_bar_gets_thicker() {
    let found = bumped_thickness(length("3/8"), length("16 in"), length("15 in"));
    assert_eq!(found, Some(length("0.4 in")));
    assert_eq!(
        bumped_thickness(length("3/8"), length("16 in"), length("0")),
        None
    );
}

#[test]
fn no_mass_holds_the_longest_lengths() {
    let most = Length::from_base(i64::MAX);
    assert_eq!(bar_mass(most, most, most), None);
    assert_eq!(bar_mass_by_handbook(most, most, most), None);
    assert_eq!(
        bar_mass(length("0"), length("1"), length("1")).map(Mass::base),
        Some(0)
    );
}
