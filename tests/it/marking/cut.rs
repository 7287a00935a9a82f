//! What the bar was cut to: read, told, and without marks.

use evenshod::marking::{CutFact, Facts, impression_is_locked, mark};
use evenshod::quantity::{Length, Unit};

use super::{facts, rubric};
use crate::marking::told;

fn plain() -> evenshod::rubric::Rubric {
    rubric(
        r#"award = { pass = "60 %" }
[[sections]]
id = "form"
name = "Form"
[[sections.criteria]]
id = "toe"
name = "Toe"
kind = "judged"
numbers = { least = 0, most = 4, step = 1 }"#,
    )
}

/// 16 in is 406.4 mm by the definition of the inch.
#[test]
fn a_length_is_read_in_its_own_unit() {
    let read = |text: &str, unit| CutFact::of(text, unit).read(Unit::Millimetre);
    let inches = Length::read("406.4 mm");
    for (text, unit) in [
        ("16 in", Unit::Millimetre),
        ("16", Unit::Inch64),
        ("406,4", Unit::Millimetre),
        ("15 32/32 in", Unit::Inch32),
    ] {
        assert_eq!(read(text, unit).ok(), inches.clone().ok(), "{text}");
    }
}

#[test]
fn what_is_no_bar_is_told_with_what_would_do() {
    let wrong = CutFact::of("16", Unit::Millimetre).read(Unit::Millimetre);
    assert_eq!(
        wrong.unwrap_err(),
        "a bar for a shoe is cut to 50.0 mm to 3000.0 mm, and `16` is 16.0 mm; write the unit \
         beside the number where it is another"
    );
    let read = |text: &str| CutFact::of(text, Unit::Inch64).read(Unit::Inch64);
    assert!(read("-16").is_err());
    assert!(read("long").is_err());
}

/// Facts from outside may give it as a text or a number, as other facts.
#[test]
fn it_gives_no_marks_and_locks_nothing() {
    let rubric = plain();
    let without = facts(r#"{"levels": {"toe": "3"}}"#);
    for cut in [r#""16 in""#, "406.4", r#"{"text": "16", "unit": "inch64"}"#] {
        let with = facts(&format!(r#"{{"levels": {{"toe": "3"}}, "cut": {cut}}}"#));
        assert_eq!(mark(&rubric, &with), mark(&rubric, &without), "{cut}");
        let only = Facts {
            cut: with.cut,
            ..Facts::default()
        };
        assert!(!impression_is_locked(Some(&rubric), &only));
        assert!(!only.is_blank());
    }
    let wrong = facts(r#"{"cut": "short"}"#);
    assert!(
        told(&mark(&rubric, &wrong)).contains("length that was cut: "),
        "{}",
        told(&mark(&rubric, &wrong))
    );
}
