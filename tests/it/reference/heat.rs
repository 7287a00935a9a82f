//! Hot steel: its size, its colour, what scale takes.

use evenshod::plan::PlanFault;
use evenshod::plan::heat::{
    CHAPMAN, STIRLING, celsius, cold, elongation, fahrenheit, hot, left_of,
};
use evenshod::quantity::{Exact, Length, Mass};

fn length(text: &str) -> Length {
    Length::read(text).unwrap()
}

/// Source: EN 1993-1-2:2005, 3.4.1.1, recomputed.
#[test]
fn elongation_of_carbon_steel() {
    assert!(elongation(20.0).unwrap().abs() < 1e-12);
    for (at, expected) in [
        (100.0, 0.000_998_4),
        (600.0, 0.008_398_4),
        (700.0, 0.010_118_4),
        (800.0, 0.0110),
        (900.0, 0.0118),
        (1000.0, 0.0138),
        (1200.0, 0.0178),
    ] {
        assert!((elongation(at).unwrap() - expected).abs() < 1e-7, "{at}");
    }
    // The pieces meet.
    for at in [750.0, 860.0] {
        let step = elongation(at + 1e-6).unwrap() - elongation(at - 1e-6).unwrap();
        assert!(step.abs() < 1e-5, "{at}: {step}");
    }
}

/// Source: the range of the same formula.
#[test]
fn outside_its_range_it_refuses() {
    for at in [19.9, -40.0, 1200.1, f64::NAN, f64::INFINITY] {
        let found = cold(length("130"), at);
        assert!(matches!(found, Err(PlanFault::Temperature { .. })), "{at}");
        assert!(hot(length("130"), at).is_err());
    }
    let said = elongation(1300.0).unwrap_err().to_string();
    assert!(
        said.starts_with("1300 °C is outside 20 to 1200 °C"),
        "{said}"
    );
}

/// Source: as above, recomputed.
#[test]
fn hot_and_cold_sizes() {
    for (at, inches) in [(900.0, 5.1888), (1000.0, 5.1785)] {
        let found = cold(length("5 1/4 in"), at).unwrap().to_mm() / 25.4;
        assert!((found - inches).abs() < 1e-4, "{found}");
    }
    let found = hot(length("130"), 900.0).unwrap();
    assert!((found.to_mm() - 131.53).abs() < 0.01);
    assert!((cold(found, 900.0).unwrap().to_mm() - 130.0).abs() < 1e-6);
    assert!(hot(Length::from_base(i64::MAX), 900.0).is_err());
    assert!(cold(Length::from_base(i64::MIN), 900.0).is_ok());
}

/// Source: W. A. J. Chapman, Workshop Technology, Part 1, 5th ed., 1972.
#[test]
fn colours_by_chapman() {
    for (at, name) in [
        (850.0, "cherry red"),
        (900.0, "light cherry"),
        (1000.0, "orange"),
        (1150.0, "yellow"),
        (1300.0, "yellow white"),
        (1320.0, "white"),
    ] {
        assert_eq!(CHAPMAN.at(at), Some(name), "{at}");
    }
    for at in [20.0, 425.0, 1600.0, f64::NAN] {
        assert_eq!(CHAPMAN.at(at), None, "{at}");
    }
}

/// Source: Stirling Boiler Co., A Book of Steam for Engineers, 1905, p. 50.
#[test]
fn colours_by_stirling() {
    for (at, name) in [
        (900.0, "full cherry"),
        (940.0, "full cherry"),
        (960.0, "clear cherry"),
        (1200.0, "clear orange"),
        (1300.0, "white"),
    ] {
        assert_eq!(STIRLING.at(at), Some(name), "{at}");
    }
    assert_eq!(STIRLING.at(500.0), None);
}

/// Source: the definition of the scales.
#[test]
fn fahrenheit_and_celsius() {
    assert!((celsius(2500.0) - 1371.1).abs() < 0.1);
    assert!((fahrenheit(900.0) - 1652.0).abs() < 1e-9);
    assert!((celsius(977.0) - 525.0).abs() < 0.1);
}

/// Source: arithmetic; the loss is an input, no published value.
#[test]
fn scale_compounds() {
    let two = Exact::fraction(2, 100).unwrap();
    let left = left_of(Mass::read("500 g").unwrap(), two, 7).unwrap();
    assert!((left.quantity().base.to_f64() / 1e6 - 434.1).abs() < 0.1);
    assert_eq!(
        left_of(Mass::read("500 g").unwrap(), Exact::whole(2), 7),
        None
    );
    let none = left_of(Mass::read("500 g").unwrap(), Exact::ONE, 3);
    assert_eq!(none.map(Mass::base), Some(0));
}
