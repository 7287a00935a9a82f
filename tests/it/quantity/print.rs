use evenshod::quantity::{
    Angle, Count, Dimension, Duration, Exact, Length, Marks, Mass, Quantity, Unit,
    decimals_that_tell_apart, print_decimal, print_length_fraction, read_exact, read_quantity,
    shortened,
};
use proptest::prelude::*;

fn step_of(unit: Unit) -> Exact {
    let (numerator, denominator) = match unit {
        Unit::Inch32 => (1, 32),
        Unit::Inch64 => (1, 64),
        unit => (1, 10_i128.pow(unit.decimals())),
    };
    let step = Exact::fraction(numerator, denominator).unwrap();
    step.times(unit.in_base()).unwrap()
}

/// Printed and read again, the value is at most half a printed step away.
fn check_within_step(quantity: Quantity, unit: Unit) -> Result<(), TestCaseError> {
    let printed = quantity.print(unit);
    let read = read_quantity(&printed, quantity.dimension, unit);
    let read = read.map_err(|error| TestCaseError::fail(format!("{printed}: {error}")))?;
    let off = read.minus(quantity).unwrap().base.size();
    let half = step_of(unit).over(Exact::whole(2)).unwrap();
    prop_assert!(off <= half, "{printed} is {off} off");
    Ok(())
}

const METRIC: [Unit; 3] = [Unit::Millimetre, Unit::Centimetre, Unit::Metre];
const INCH: [Unit; 2] = [Unit::Inch32, Unit::Inch64];

proptest! {
    #[test]
    fn lengths_read_back_within_the_printed_step(
        nanometres in -1_000_000_000_000_i64..1_000_000_000_000,
        thirds in 1..4_i128,
    ) {
        let base = Exact::fraction(nanometres.into(), thirds).unwrap();
        let length = Quantity::new(Dimension::Length, base);
        for unit in METRIC.into_iter().chain(INCH) {
            check_within_step(length, unit)?;
        }
    }

    #[test]
    fn angles_and_masses_read_back_within_the_printed_step(base in -1_000_000_000_i64..1_000_000_000) {
        let base = Exact::whole(base.into());
        check_within_step(Quantity::new(Dimension::Angle, base), Unit::Degree)?;
        for unit in [Unit::Gram, Unit::Kilogram, Unit::Ounce, Unit::Pound] {
            check_within_step(Quantity::new(Dimension::Mass, base), unit)?;
        }
    }

    /// What was typed on the grid of the unit comes back as it was typed.
    #[test]
    fn values_on_the_grid_read_back_exactly(steps in -100_000_i128..100_000) {
        for unit in METRIC.into_iter().chain(INCH) {
            let base = step_of(unit).times(Exact::whole(steps)).unwrap();
            let length = Quantity::new(Dimension::Length, base);
            prop_assert_eq!(read_quantity(&length.print(unit), Dimension::Length, unit), Ok(length));
        }
    }

    #[test]
    fn durations_in_whole_seconds_read_back_exactly(seconds in -1_000_000_i128..1_000_000) {
        let base = Exact::whole(seconds * 1000);
        let duration = Quantity::new(Dimension::Duration, base);
        let printed = duration.print(Unit::Minute);
        prop_assert_eq!(
            read_quantity(&printed, Dimension::Duration, Unit::Minute),
            Ok(duration),
            "{}",
            printed
        );
    }

    #[test]
    fn marks_read_back_exactly(numerator in -1_000_000_i128..1_000_000, denominator in 1..1000_i128) {
        let marks = Marks(Exact::fraction(numerator, denominator).unwrap());
        prop_assert_eq!(marks.to_string().parse(), Ok(marks));
        prop_assert_eq!(marks.exact_text().parse(), Ok(marks));
        let json = serde_json::to_string(&marks).unwrap();
        prop_assert_eq!(serde_json::from_str::<Marks>(&json).unwrap(), marks);
    }

    /// What files hold loses nothing.
    #[test]
    fn stored_amounts_read_back_exactly(base in -999_999_999_000_000_i64..999_999_999_000_000) {
        let length = Length::from_base(base);
        prop_assert_eq!(Length::read(&length.to_string()), Ok(length));
        let angle = Angle::from_base(base);
        prop_assert_eq!(Angle::read(&angle.to_string()), Ok(angle));
        let mass = Mass::from_base(base);
        prop_assert_eq!(Mass::read(&mass.to_string()), Ok(mass));
        let duration = Duration::from_base(base / 1_000);
        prop_assert_eq!(Duration::read(&duration.to_string()), Ok(duration));
        let count = Count::from_base(base / 1_000_000);
        prop_assert_eq!(Count::read(&count.to_string()), Ok(count));
    }

    /// Nine digits before the point are as many as can be read.
    #[test]
    fn decimals_read_back_within_half_a_place(
        numerator in -999_999_999_i128..999_999_999,
        denominator in 1..10_000_i128,
        places in 0..7_u32,
    ) {
        let value = Exact::fraction(numerator, denominator).unwrap();
        let read = read_exact(&print_decimal(value, places)).unwrap();
        let half = Exact::fraction(1, 2 * 10_i128.pow(places)).unwrap();
        prop_assert!(read.minus(value).unwrap().size() <= half);
    }

    /// Sums do not depend on order or grouping.
    #[test]
    fn exact_sums_have_no_order(parts in prop::collection::vec((-1000..1000_i128, 1..64_i128), 1..12)) {
        let mut exact: Vec<Exact> = parts
            .iter()
            .map(|(above, below)| Exact::fraction(*above, *below).unwrap())
            .collect();
        let sum = Exact::sum(exact.iter().copied());
        exact.reverse();
        prop_assert_eq!(Exact::sum(exact.iter().copied()), sum);
        exact.sort_unstable();
        prop_assert_eq!(Exact::sum(exact), sum);
    }
}

#[test]
fn printed_as_the_trade_writes_it() {
    let length = |text| read_quantity(text, Dimension::Length, Unit::Millimetre).unwrap();
    for (text, mm, inch) in [
        ("3/8", "9.5 mm", "3/8 in"),
        ("5 3/16 in", "131.8 mm", "5 3/16 in"),
        ("1/4 in", "6.4 mm", "1/4 in"),
        ("2 in", "50.8 mm", "2 in"),
        ("0", "0.0 mm", "0 in"),
        ("-1 1/2 in", "-38.1 mm", "-1 1/2 in"),
        ("-0.001", "0.0 mm", "0 in"),
        ("0.05", "0.1 mm", "0 in"),
    ] {
        assert_eq!(length(text).print(Unit::Millimetre), mm, "{text}");
        assert_eq!(length(text).print(Unit::Inch64), inch, "{text}");
    }
    assert_eq!(print_length_fraction(length("10"), 16), "3/8 in");
}

#[test]
fn durations_and_counts() {
    let print = |text, dimension: Dimension| {
        let unit = dimension.usual_unit();
        read_quantity(text, dimension, unit).unwrap().print(unit)
    };
    assert_eq!(print("100", Dimension::Duration), "1 h 40 min");
    assert_eq!(print("0", Dimension::Duration), "0 min");
    assert_eq!(print("-90 s", Dimension::Duration), "-1 min 30 s");
    assert_eq!(print("0.0004 s", Dimension::Duration), "0 min");
    assert_eq!(print("60.5 s", Dimension::Duration), "1 min 0.5 s");
    assert_eq!(print("0,001 s", Dimension::Duration), "0.001 s");
    assert_eq!(print("8", Dimension::Count), "8");
    assert_eq!(print("2.5", Dimension::Count), "2.5");
}

#[test]
fn marks_show_a_decimal_where_two_places_are_exact() {
    for (text, printed) in [
        ("7", "7"),
        ("7.25", "7.25"),
        ("7.5", "7.5"),
        ("20/3", "6 2/3"),
        ("-20/3", "-6 2/3"),
        ("1/8", "1/8"),
        ("0", "0"),
        ("1/3", "1/3"),
    ] {
        let marks: Marks = text.parse().unwrap();
        assert_eq!(marks.to_string(), printed, "{text}");
    }
}

/// A reason never reads "1.5 mm, over 1.5 mm".
#[test]
fn as_many_decimals_as_tell_a_value_from_its_limit() {
    let exact = |text| read_exact(text).unwrap();
    let limit = [exact("1.5")];
    assert_eq!(decimals_that_tell_apart(exact("2.4"), &limit, 1), 1);
    assert_eq!(decimals_that_tell_apart(exact("1.51"), &limit, 1), 2);
    assert_eq!(decimals_that_tell_apart(exact("1.5001"), &limit, 1), 4);
    assert_eq!(decimals_that_tell_apart(exact("1.500001"), &limit, 1), 6);
    assert_eq!(decimals_that_tell_apart(exact("1.5"), &limit, 1), 1);
}

#[test]
fn amounts_of_different_things_do_not_add_up() {
    let length = Quantity::zero(Dimension::Length);
    let angle = Quantity::zero(Dimension::Angle);
    assert_eq!(length.plus(angle), None);
    assert_eq!(length.minus(angle), None);
}

#[test]
fn overflow_is_told_not_wrapped() {
    let huge = Exact::whole(i128::MAX);
    assert_eq!(huge.plus(Exact::ONE), None);
    assert_eq!(huge.times(Exact::whole(2)), None);
    assert_eq!(Exact::ONE.over(Exact::ZERO), None);
    assert_eq!(Exact::fraction(1, 0), None);
    assert_eq!(huge.rounded_to(Exact::ONE), None);
    assert_eq!(
        Length::nearest(Quantity::new(Dimension::Length, huge)),
        None
    );
}

#[test]
fn zeros_that_end_the_decimals_go_and_no_others() {
    for (long, short) in [
        ("1.50 mm", "1.5 mm"),
        ("2.0 °", "2 °"),
        ("100 mm", "100 mm"),
        ("100", "100"),
        ("0.00", "0"),
        ("10.05", "10.05"),
        ("5 1/8 in", "5 1/8 in"),
    ] {
        assert_eq!(shortened(long), short);
    }
}

#[test]
fn marks_of_any_length_are_stored_and_found_again() {
    for text in ["0.123456789", "999999999.999999999", "20/3", "-7"] {
        let marks = Marks(read_exact(text).unwrap());
        let stored = serde_json::to_string(&marks).unwrap();
        assert_eq!(serde_json::from_str::<Marks>(&stored).unwrap(), marks);
    }
}

proptest! {
    /// The places are the first at which the value reads otherwise than every limit that it
    /// differs from, or the last of those that are tried.
    #[test]
    fn the_fewest_decimals_that_tell_apart(
        value in -3_000_i128..3_000,
        limits in prop::collection::vec(-3_000_i128..3_000, 0..5),
        scale in prop::sample::select(vec![1_i128, 3, 64, 1_000, 100_000]),
        least in 0_u32..3,
    ) {
        let exact = |number| Exact::fraction(number, scale).unwrap();
        let (value, limits): (Exact, Vec<Exact>) = (exact(value), limits.into_iter().map(exact).collect());
        let reads_alike = |places: u32| {
            let others = limits.iter().filter(|limit| **limit != value);
            let said = |value: Exact| print_decimal(value, places);
            others.into_iter().any(|limit| said(*limit) == said(value))
        };
        let tried = least..least + 5;
        let first = tried.clone().find(|places| !reads_alike(*places));
        let places = decimals_that_tell_apart(value, &limits, least);
        prop_assert_eq!(places, first.unwrap_or(tried.end));
    }
}
