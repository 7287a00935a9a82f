use evenshod::quantity::{
    Dimension, Exact, Marks, Quantity, Reading, Unit, Verdict, read_exact, read_quantity,
    read_reading,
};
use proptest::prelude::*;

const MM: Unit = Unit::Millimetre;

fn nanometres(base: i128) -> Quantity {
    Quantity::new(Dimension::Length, Exact::whole(base))
}

#[track_caller]
fn length(text: &str, bare: Unit) -> Quantity {
    read_quantity(text, Dimension::Length, bare).unwrap_or_else(|error| panic!("{text}: {error}"))
}

#[test]
fn lengths_as_people_write_them() {
    for (text, base) in [
        ("10", 10_000_000),
        ("10.5 mm", 10_500_000),
        ("10,5", 10_500_000),
        ("10,5 mm", 10_500_000),
        ("10.", 10_000_000),
        (".5", 500_000),
        ("0.000001", 1),
        ("3/8", 9_525_000),
        ("3⁄8", 9_525_000),
        ("1 1/2\"", 38_100_000),
        ("1 1/2″", 38_100_000),
        ("1 1/2''", 38_100_000),
        ("1-1/2 in", 38_100_000),
        ("1 - 1/2 in", 38_100_000),
        ("1\u{a0}1/2 in", 38_100_000),
        ("7/16in", 11_112_500),
        ("1½", 38_100_000),
        ("1 ½ in", 38_100_000),
        ("¾", 19_050_000),
        ("⅝ in", 15_875_000),
        ("1/64", 396_875),
        ("5 inches", 127_000_000),
        ("2.5 in.", 63_500_000),
        ("3/8 mm", 375_000),
        ("1.27 cm", 12_700_000),
        ("0.13 m", 130_000_000),
        ("  10 MM ", 10_000_000),
        ("+4", 4_000_000),
        ("-4", -4_000_000),
        ("−1 1/2 in", -38_100_000),
    ] {
        assert_eq!(length(text, MM), nanometres(base), "{text}");
    }
}

/// A fraction is inches whatever the sheet's unit; a bare number takes it.
#[test]
fn the_unit_of_a_bare_number() {
    for unit in [Unit::Inch32, Unit::Inch64] {
        assert_eq!(length("10", unit), nanometres(254_000_000));
        assert_eq!(length("10 mm", unit), nanometres(10_000_000));
    }
    assert_eq!(length("1/2", MM), length("1/2", Unit::Inch32));
    assert_eq!(length("2", Unit::Gram), length("2 mm", MM), "not a length");
}

#[test]
fn other_amounts() {
    for (text, dimension, base) in [
        ("2", Dimension::Angle, 2_000_000),
        ("1/2 deg", Dimension::Angle, 500_000),
        ("-7.5°", Dimension::Angle, -7_500_000),
        ("506.5 g", Dimension::Mass, 506_500_000),
        ("1 kg", Dimension::Mass, 1_000_000_000),
        ("16 oz", Dimension::Mass, 453_592_370),
        ("1 lb", Dimension::Mass, 453_592_370),
        ("12", Dimension::Duration, 720_000),
        ("90 s", Dimension::Duration, 90_000),
        ("1 h 40 min", Dimension::Duration, 6_000_000),
        ("1h40", Dimension::Duration, 6_000_000),
        ("2 h 50 min 5 s", Dimension::Duration, 10_205_000),
        ("5 min 30", Dimension::Duration, 330_000),
        ("1½ h", Dimension::Duration, 5_400_000),
        ("1-1/2 h", Dimension::Duration, 5_400_000),
        ("-1 h 40 min", Dimension::Duration, -6_000_000),
        ("8", Dimension::Count, 8),
    ] {
        let read = read_quantity(text, dimension, dimension.usual_unit());
        let expect = Quantity::new(dimension, Exact::whole(base));
        assert_eq!(read, Ok(expect), "{text}");
    }
}

#[test]
fn refused_with_what_would_do() {
    for (text, dimension, said) in [
        (
            "",
            Dimension::Length,
            "nothing is written here; write a number such as 10.5 or 3/8",
        ),
        (
            "  ",
            Dimension::Length,
            "nothing is written here; write a number such as 10.5 or 3/8",
        ),
        (
            "wide",
            Dimension::Length,
            "`wide` is not a number; write it like 10.5, 10,5, 3/8 or 1 1/2",
        ),
        (
            "mm",
            Dimension::Length,
            "`mm` is not a number; write it like 10.5, 10,5, 3/8 or 1 1/2",
        ),
        (
            "1.2.3",
            Dimension::Length,
            "`1.2.3` is not a number; write it like 10.5, 10,5, 3/8 or 1 1/2",
        ),
        (
            "1,234.5",
            Dimension::Length,
            "`1,234.5` is not a number; write it like 10.5, 10,5, 3/8 or 1 1/2",
        ),
        (
            "1 2",
            Dimension::Length,
            "`1 2` is not a number; write it like 10.5, 10,5, 3/8 or 1 1/2",
        ),
        (
            "1.5/8",
            Dimension::Length,
            "`1.5/8` is not a number; write it like 10.5, 10,5, 3/8 or 1 1/2",
        ),
        (
            "--4",
            Dimension::Length,
            "`--4` is not a number; write it like 10.5, 10,5, 3/8 or 1 1/2",
        ),
        (
            "1 h -5 min",
            Dimension::Duration,
            "`1 h -5 min` is not a number; write it like 10.5, 10,5, 3/8 or 1 1/2",
        ),
        (
            "3/0",
            Dimension::Length,
            "`3/0` divides by zero; write a fraction such as 3/8",
        ),
        (
            "10 furlong",
            Dimension::Length,
            "`furlong` is not a unit of length; use mm, cm or in",
        ),
        (
            "10 mm 5",
            Dimension::Length,
            "`mm 5` is not a unit of length; use mm, cm or in",
        ),
        (
            "10 kg",
            Dimension::Length,
            "`kg` is a unit, but not of length; use mm, cm or in",
        ),
        (
            "10 mm",
            Dimension::Angle,
            "`mm` is a unit, but not of angle; use deg or °",
        ),
        (
            "1:40",
            Dimension::Duration,
            "`:` is not a unit of duration; use h, min or s",
        ),
        (
            "6 mm",
            Dimension::Count,
            "`mm` is a unit, but not of count; use a plain number without a unit",
        ),
        (
            "1234567890",
            Dimension::Length,
            "`1234567890` is too large or has too many digits; use at most 9 before and 9 after \
             the point",
        ),
        (
            "0.0123456789",
            Dimension::Length,
            "`0.0123456789` is too large or has too many digits; use at most 9 before and 9 after \
             the point",
        ),
    ] {
        let error = read_quantity(text, dimension, dimension.usual_unit()).unwrap_err();
        assert_eq!(error.to_string(), said, "{text}");
    }
}

#[test]
fn intervals() {
    for (text, from, to) in [
        ("0.5..0.6", 500_000, 600_000),
        ("0,5..0,6 mm", 500_000, 600_000),
        ("0.5 .. 0.6", 500_000, 600_000),
        ("0.5…0.6", 500_000, 600_000),
        ("1..2 in", 25_400_000, 50_800_000),
        ("1 mm..2 in", 1_000_000, 50_800_000),
        ("1/4..3/8", 6_350_000, 9_525_000),
        ("-1..1", -1_000_000, 1_000_000),
    ] {
        let expect = Reading::Interval {
            from: nanometres(from),
            to: nanometres(to),
        };
        assert_eq!(
            read_reading(text, Dimension::Length, MM),
            Ok(expect),
            "{text}"
        );
    }
    for (text, said) in [
        (
            "0.6..0.5",
            "`0.6..0.5` runs backwards; write the smaller value first, as in 0.5..0.6",
        ),
        (
            "0.5..0.5",
            "`0.5..0.5` runs backwards; write the smaller value first, as in 0.5..0.6",
        ),
        (
            "0.5..",
            "nothing is written here; write a number such as 10.5 or 3/8",
        ),
        (
            "..0.5",
            "nothing is written here; write a number such as 10.5 or 3/8",
        ),
    ] {
        let error = read_reading(text, Dimension::Length, MM).unwrap_err();
        assert_eq!(error.to_string(), said, "{text}");
    }
}

#[test]
fn verdicts() {
    for (text, verdict, limit) in [
        ("within", Verdict::Within, None),
        ("Under", Verdict::Under, None),
        (" over ", Verdict::Over, None),
        ("over fair", Verdict::Over, Some("fair")),
        (
            "within  the wide one",
            Verdict::Within,
            Some("the wide one"),
        ),
    ] {
        let limit = limit.map(str::to_owned);
        let expect = Reading::Verdict { verdict, limit };
        assert_eq!(
            read_reading(text, Dimension::Length, MM),
            Ok(expect),
            "{text}"
        );
    }
    assert!(read_reading("overfair", Dimension::Length, MM).is_err());
}

const DIMENSIONS: [Dimension; 5] = [
    Dimension::Length,
    Dimension::Angle,
    Dimension::Mass,
    Dimension::Duration,
    Dimension::Count,
];

fn read_every_way(text: &str) {
    let _ = read_exact(text);
    let _ = text.parse::<Marks>();
    for dimension in DIMENSIONS {
        for unit in [MM, Unit::Inch64, dimension.usual_unit()] {
            if let Ok(quantity) = read_quantity(text, dimension, unit) {
                let _ = quantity.print(unit);
            }
            let _ = read_reading(text, dimension, unit);
        }
    }
}

proptest! {
    #[test]
    fn no_text_panics(text in any::<String>()) {
        read_every_way(&text);
    }

    #[test]
    fn nothing_made_of_the_signs_of_numbers_panics(
        text in "[0-9 .,/⁄½⅞+−\\-\"″a-z°…\u{a0}\u{202f}]{0,30}",
    ) {
        read_every_way(&text);
    }

    #[test]
    fn decimal_comma_and_point_mean_the_same(whole in 0..1_000_000_000_u32, below in 0..1_000_000_000_u32) {
        let with = |sign: char| read_exact(&format!("{whole}{sign}{below:09}")).unwrap();
        prop_assert_eq!(with('.'), with(','));
        prop_assert_eq!(with('.').floor(), i128::from(whole));
    }

    #[test]
    fn every_form_of_a_fraction_means_the_same(whole in 1..1000_u32, above in 1..64_u32) {
        let texts = [
            format!("{whole} {above}/64"),
            format!("{whole}-{above}/64 in"),
            format!("{whole}\u{a0}{above}⁄64\""),
            format!("{}/64", whole * 64 + above),
        ];
        let expect = i128::from(whole * 64 + above) * 396_875;
        for text in texts {
            prop_assert_eq!(length(&text, MM), nanometres(expect));
        }
    }
}
