use evenshod::quantity::{Dimension, Exact, Quantity, Unit, read_quantity};
use evenshod::rubric::{Context, Expression};
use proptest::prelude::*;

const PIECE: &[(&str, &str)] = &[
    ("finished.width", "5 1/4 in"),
    ("nails.outer", "3"),
    ("nails.pitch_toe", "5 deg"),
];

fn piece_number(path: &str) -> Option<String> {
    let found = PIECE.iter().find(|(known, _)| *known == path);
    found.map(|(_, number)| (*number).to_owned())
}

fn context(dimension: Dimension) -> Context<'static> {
    Context {
        dimension,
        bare_unit: dimension.usual_unit(),
        piece_number: &piece_number,
    }
}

/// Thickness 9 mm, width 19 mm, length 130 mm.
fn reading(id: &str) -> Option<Quantity> {
    let text = match id {
        "thickness" => "9 mm",
        "width" => "19 mm",
        "length" => "130 mm",
        _ => return None,
    };
    read_quantity(text, Dimension::Length, Unit::Millimetre).ok()
}

#[track_caller]
fn check(text: &str, value: &str) {
    let expression = Expression::read(text, &context(Dimension::Length)).unwrap();
    let expect = read_quantity(value, Dimension::Length, Unit::Millimetre).unwrap();
    assert_eq!(expression.value(&reading), Some(expect), "{text}");
}

#[test]
fn amounts_readings_and_numbers_of_the_piece() {
    check("10", "10 mm");
    check("10 mm", "10 mm");
    check("-1.5 mm", "-1.5 mm");
    check("3/8", "9.525 mm");
    check("1 1/2 in", "38.1 mm");
    check("thickness", "9 mm");
    check("piece.finished.width", "133.35 mm");
}

#[test]
fn shares_are_exact() {
    check("2/3 of thickness", "6 mm");
    check("half of width", "9.5 mm");
    check("110 % of length", "143 mm");
    check("10% of length", "13 mm");
    check("0.75 of thickness", "6.75 mm");
    check("1 1/2 of thickness", "13.5 mm");
    check("half of half of thickness", "2.25 mm");
    let third = Expression::read("1/3 of 10 mm", &context(Dimension::Length)).unwrap();
    let exact = Exact::fraction(10_000_000, 3);
    assert_eq!(third.constant().map(|quantity| quantity.base), exact);
}

#[test]
fn sums_and_differences_go_from_left_to_right() {
    check("thickness plus 1 mm", "10 mm");
    check("length minus width minus thickness", "102 mm");
    check("length minus width plus thickness", "120 mm");
    check("half of width plus 1 mm", "10.5 mm");
    check("1 mm plus half of width", "10.5 mm");
}

#[test]
fn the_greater_and_the_lesser() {
    check("greater of width and thickness", "19 mm");
    check("lesser of width and thickness", "9 mm");
    check("greater of half of width and thickness", "9.5 mm");
    check("lesser of width and thickness plus 1 mm", "10 mm");
    check("half of greater of width and thickness", "9.5 mm");
}

#[test]
fn other_dimensions_take_their_own_numbers() {
    let read = |text: &str, dimension| Expression::read(text, &context(dimension));
    let count = read("piece.nails.outer plus 3", Dimension::Count).unwrap();
    assert_eq!(count.constant().map(|q| q.base), Some(Exact::whole(6)));
    let angle = read("piece.nails.pitch_toe", Dimension::Angle).unwrap();
    assert_eq!(
        angle.constant().map(|q| q.base),
        Some(Exact::whole(5_000_000))
    );
    for (path, dimension) in [
        ("piece.nails.outer", Dimension::Length),
        ("piece.nails.pitch_toe", Dimension::Count),
        ("piece.finished.width", Dimension::Angle),
    ] {
        assert!(read(path, dimension).is_err(), "{path}");
    }
}

#[test]
fn a_missing_reading_gives_no_value_and_every_reading_is_listed_once() {
    let text = "greater of a and b plus 2/3 of a";
    let expression = Expression::read(text, &context(Dimension::Length)).unwrap();
    assert_eq!(expression.readings(), ["a", "b"]);
    assert_eq!(expression.value(&reading), None);
    assert_eq!(expression.constant(), None);
}

#[test]
fn what_is_wrong_says_what_would_be_right() {
    for (text, said) in [
        (
            "",
            "`` stops short; write it like `2/3 of thickness` or `greater of width and length`",
        ),
        (
            "2/3 of",
            "`2/3 of` stops short; write it like `2/3 of thickness` or `greater of width and \
             length`",
        ),
        (
            "greater of width",
            "`greater of width` stops short; write it like `2/3 of thickness` or `greater of \
             width and length`",
        ),
        (
            "thickness plus",
            "`thickness plus` stops short; write it like `2/3 of thickness` or `greater of width \
             and length`",
        ),
        (
            "most of thickness",
            "`most` is not a number; write it like 10.5, 10,5, 3/8 or 1 1/2",
        ),
        (
            "3 kg",
            "`kg` is a unit, but not of length; use mm, cm or in",
        ),
        ("3 ells", "`ells` is not a unit of length; use mm, cm or in"),
        (
            "1/0 of width",
            "`1/0` divides by zero; write a fraction such as 3/8",
        ),
        (
            "piece.bar.width",
            "the piece specification has no length at `piece.bar.width`; use a key that stands \
             under [piece], such as piece.finished.width",
        ),
    ] {
        let error = Expression::read(text, &context(Dimension::Length)).unwrap_err();
        assert_eq!(error.to_string(), said, "{text}");
    }
    let long = "half of ".repeat(40) + "width";
    let error = Expression::read(&long, &context(Dimension::Length)).unwrap_err();
    assert_eq!(error.to_string(), "this has too many parts; use at most 32");
}

proptest! {
    #[test]
    fn no_text_panics(text in "\\PC*") {
        let _ = Expression::read(&text, &context(Dimension::Length));
    }

    #[test]
    fn no_string_of_words_panics(words in prop::collection::vec(
        prop::sample::select(vec![
            "greater", "lesser", "of", "and", "plus", "minus", "half", "2/3", "10", "%", "mm",
            "width", "piece.finished.width", "999999999", "1/999999999",
        ]),
        0..40,
    )) {
        let text = words.join(" ");
        if let Ok(expression) = Expression::read(&text, &context(Dimension::Length)) {
            let _ = expression.value(&reading);
        }
    }
}
