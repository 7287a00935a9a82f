//! Conversions, fractions and rounding against published or recomputed numbers.

use evenshod::quantity::{
    Dimension, Exact, Quantity, Unit, print_decimal, print_length_fraction, read_exact,
    read_quantity,
};

#[track_caller]
fn quantity(text: &str, dimension: Dimension) -> Quantity {
    read_quantity(text, dimension, dimension.usual_unit()).unwrap()
}

fn length(text: &str) -> Quantity {
    quantity(text, Dimension::Length)
}

fn exact(text: &str) -> Exact {
    read_exact(text).unwrap()
}

fn in_unit(quantity: Quantity, unit: Unit) -> Exact {
    quantity.base.over(unit.in_base()).unwrap()
}

/// Source: the international inch of 1959, 25.4 mm exactly (from memory).
#[test]
fn one_inch_is_25_4_mm() {
    assert_eq!(in_unit(length("1 in"), Unit::Millimetre), exact("25.4"));
    assert_eq!(length("1/64").base, Exact::whole(396_875));
}

/// Source: arithmetic on 1 in = 25.4 mm, recomputed with Python's fractions.
#[test]
fn fractions_of_an_inch_in_mm() {
    for (text, mm) in [
        ("5/16", "7.9375"),
        ("3/64", "1.190625"),
        ("1 1/2", "38.1"),
        ("2-3/8", "60.325"),
        ("7/16", "11.1125"),
        ("63/64", "25.003125"),
        ("5 3/16", "131.7625"),
        ("4 3/4", "120.65"),
        ("2 3/4", "69.85"),
        ("1 1/8", "28.575"),
    ] {
        assert_eq!(in_unit(length(text), Unit::Millimetre), exact(mm), "{text}");
    }
    let twelfth = in_unit(length("1/12"), Unit::Millimetre);
    assert_eq!(Some(twelfth), Exact::fraction(127, 60));
    assert_eq!(print_decimal(twelfth, 4), "2.1167");
}

/// Source: as above; the nearest fraction and its distance.
#[test]
fn millimetres_to_the_nearest_64th() {
    for (mm, printed, back) in [
        ("8", "5/16 in", "7.9375"),
        ("10", "25/64 in", "9.921875"),
        ("20", "25/32 in", "19.84375"),
        ("25", "63/64 in", "25.003125"),
        ("130", "5 1/8 in", "130.175"),
    ] {
        assert_eq!(length(mm).print(Unit::Inch64), printed);
        assert_eq!(in_unit(length(printed), Unit::Millimetre), exact(back));
    }
}

/// Source: arithmetic; 132.6 mm is 5.2205 in, above the half-way 5.21875.
#[test]
fn millimetres_to_the_nearest_16th() {
    for (mm, printed) in [
        ("131.76", "5 3/16 in"),
        ("132.6", "5 1/4 in"),
        ("132.55625", "5 1/4 in"),
        ("132.55624", "5 3/16 in"),
    ] {
        assert_eq!(print_length_fraction(length(mm), 16), printed, "{mm}");
    }
}

/// Source: ISO 80000-1, annex B, examples without ties (from memory).
#[test]
fn rounding_to_a_range() {
    for (value, step, rounded) in [
        ("12.223", "0.1", "12.2"),
        ("12.251", "0.1", "12.3"),
        ("12.275", "0.1", "12.3"),
        ("1222.3", "10", "1220"),
        ("1225.1", "10", "1230"),
        ("1227.5", "10", "1230"),
    ] {
        assert_eq!(
            exact(value).rounded_to(exact(step)),
            Some(exact(rounded)),
            "{value}"
        );
    }
}

/// Source: ISO 80000-1, annex B, rule B, on the size: ties go away from zero
/// (from memory). Rule A, ties to the even one, gives 12.2 and 1220 for the
/// first of each pair; it is not ours.
#[test]
fn ties_go_away_from_zero() {
    for (value, step, rounded) in [
        ("12.25", "0.1", "12.3"),
        ("12.35", "0.1", "12.4"),
        ("1225.0", "10", "1230"),
        ("1235.0", "10", "1240"),
        ("-12.25", "0.1", "-12.3"),
        ("-0.5", "1", "-1"),
        ("2.675", "0.01", "2.68"),
    ] {
        assert_eq!(
            exact(value).rounded_to(exact(step)),
            Some(exact(rounded)),
            "{value}"
        );
    }
    assert_eq!(print_decimal(exact("64.995"), 2), "65.00");
}

/// Source: ISO 80000-1, annex B: rounded in one step (from memory). 12.251 is
/// not first 12.25; and 64.95 % is printed 65.0 and is below 65 %.
#[test]
fn nothing_is_rounded_twice() {
    assert_eq!(print_decimal(exact("12.2449"), 1), "12.2");
    assert_eq!(print_decimal(exact("12.251"), 1), "12.3");
    assert_eq!(print_decimal(exact("64.95"), 1), "65.0");
    assert!(exact("64.95") < exact("65"));
}

/// Source: the avoirdupois pound of 1959, 453.59237 g exactly, an ounce a 16th
/// of it (from memory). Weights of shoes: A. Lungwitz and J. W. Adams, A
/// Text-Book of Horseshoeing, 1913; G. Fleming, Horse-Shoes and Horse-Shoeing,
/// 1869, p. 524. Grams recomputed.
#[test]
fn weights_of_shoes_in_grams() {
    for (ounces, grams) in [
        ("6 5/6 oz", "193.7 g"),
        ("4 oz", "113.4 g"),
        ("5 1/2 oz", "155.9 g"),
        ("3 5/8 oz", "102.8 g"),
        ("18 oz", "510.3 g"),
        ("12 oz", "340.2 g"),
        ("40 oz", "1134.0 g"),
    ] {
        assert_eq!(
            quantity(ounces, Dimension::Mass).print(Unit::Gram),
            grams,
            "{ounces}"
        );
    }
    let pound = quantity("1 lb", Dimension::Mass);
    assert_eq!(in_unit(pound, Unit::Gram), exact("453.59237"));
    assert_eq!(in_unit(pound, Unit::Ounce), exact("16"));
    assert_eq!(
        quantity("1.1167 lb", Dimension::Mass).print(Unit::Gram),
        "506.5 g"
    );
}

/// Source: as above: two fronts and two hinds of the trotter and pacer sets, in
/// the 16 to 28 oz that the book gives for a set.
#[test]
fn weights_of_sets() {
    let set = |front: &str, hind: &str| {
        let pair = |text| {
            quantity(text, Dimension::Mass)
                .times(Exact::whole(2))
                .unwrap()
        };
        pair(front).plus(pair(hind)).unwrap()
    };
    let trotter = set("6 5/6 oz", "4 oz");
    assert_eq!(Some(in_unit(trotter, Unit::Ounce)), Exact::fraction(65, 3));
    assert_eq!(trotter.print(Unit::Gram), "614.2 g");
    let pacer = set("5 1/2 oz", "3 5/8 oz");
    assert_eq!(in_unit(pacer, Unit::Ounce), exact("18.25"));
    assert_eq!(pacer.print(Unit::Gram), "517.4 g");
}

/// Source: two thirds of the thickness, A. Lungwitz and J. W. Adams, 1913, p. 110.
#[test]
fn depth_of_the_fuller() {
    let depth = |text| length(text).times(exact("2/3")).unwrap();
    assert_eq!(depth("3/8"), length("1/4"));
    for (thickness, mm) in [("7/16", "7.41"), ("5/16", "5.29"), ("10", "6.67")] {
        let value = in_unit(depth(thickness), Unit::Millimetre);
        assert_eq!(print_decimal(value, 2), mm, "{thickness}");
    }
}

/// Source: published limits of the Journeyman bar and of the professional and
/// advanced levels of the Farrier International Testing System.
#[test]
fn durations_in_seconds() {
    for (text, seconds) in [
        ("35 min", 2100),
        ("35", 2100),
        ("100 min", 6000),
        ("1 h 40", 6000),
        ("2 h 30", 9000),
        ("2 h 50 min", 10_200),
        ("2½ h", 9000),
    ] {
        let read = quantity(text, Dimension::Duration);
        assert_eq!(in_unit(read, Unit::Second), Exact::whole(seconds), "{text}");
    }
    assert_eq!(
        quantity("100 min", Dimension::Duration).print(Unit::Minute),
        "1 h 40 min"
    );
}
