//! Readings that state their own uncertainty.

use evenshod::marking::{Facts, PHOTO_GAUGE, ReadingFact, Stated, mark, taken_with};
use evenshod::quantity::{Dimension, Exact, Quantity};
use evenshod::rubric::{Instrument, Rubric, Uncertainty};
use proptest::prelude::*;
use serde_json::json;

use super::{criteria, facts};

fn length() -> Rubric {
    criteria(
        r#"
[[sections.criteria]]
id = "length"
name = "Length"
kind = "toleranced"
target = "150 mm"
bands = [{ within = "1.5 mm", marks = 4 }]
"#,
    )
}

fn with(stated: &str) -> Facts {
    facts(&format!(
        r#"{{
"readings": {{"length": [{{"text": "150.2 mm", "instrument": "photo-gauge", "stated": {stated}}}]}},
"instruments": {{"photo-gauge": {{"name": "Photo gauge", "measures": "length",
  "standard_uncertainty": "0.3 mm", "repeatability": "0.1 mm", "shared": "0.2 mm",
  "source": "rendered photographs"}}}}}}"#
    ))
}

fn found(facts: &Facts) -> Instrument {
    let rubric = length();
    let slots = rubric.slots();
    taken_with(&rubric, facts, &slots[0], &facts.readings["length"][0]).unwrap()
}

/// Hundredths of a millimetre, in nanometres.
fn hundredths(count: i128) -> Quantity {
    Quantity::new(Dimension::Length, Exact::whole(count * 10_000))
}

#[test]
fn its_figures_stand_in_place_of_the_instruments() {
    let own = found(&with(r#"{"own": "0.12 mm", "shared": "-0.05 mm"}"#));
    assert_eq!(own.id, PHOTO_GAUGE);
    assert_eq!(own.name, "Photo gauge");
    assert_eq!(own.uncertainty, Uncertainty::Standard(hundredths(12)));
    assert_eq!(own.repeatability, None);
    assert_eq!(own.shared, Some(hundredths(-5)));
    for nothing in [r#"{"own": "0.12 mm"}"#, r#"{"own": "0.12", "shared": "0"}"#] {
        let own = found(&with(nothing));
        assert_eq!(own.uncertainty, Uncertainty::Standard(hundredths(12)));
        assert_eq!(own.shared, None);
    }
    let none = found(&with("null"));
    assert_eq!(none.uncertainty, Uncertainty::Standard(hundredths(30)));
    assert_eq!(none.shared, Some(hundredths(20)));
}

#[test]
fn what_cannot_be_used_is_told_and_the_instruments_figures_count() {
    let faults = [
        (
            r#"{"own": "0 mm"}"#,
            "the reading states its uncertainty as `0 mm`; write how much it is, above zero",
        ),
        (
            r#"{"own": " -0.1 mm "}"#,
            "the reading states its uncertainty as `-0.1 mm`; write how much it is, above zero",
        ),
        (
            r#"{"own": "much"}"#,
            "the reading states its uncertainty as `much`: `much` is not a number; write it like \
             10.5, 10,5, 3/8 or 1 1/2",
        ),
        (
            r#"{"own": "0.1 mm", "shared": "0.1 deg"}"#,
            "the reading states its uncertainty as `0.1 deg`: `deg` is a unit, but not of length; \
             use ",
        ),
    ];
    for (stated, wanted) in faults {
        let facts = with(stated);
        let marking = mark(&length(), &facts);
        assert_eq!(marking.problems.len(), 1, "{:?}", marking.problems);
        let problem = &marking.problems[0];
        assert_eq!(problem.id, "length");
        assert!(problem.message.starts_with(wanted), "{}", problem.message);
        assert_eq!(marking.marks.to_string(), "4", "the reading counts");
        let used = found(&facts);
        assert_eq!(used.uncertainty, Uncertainty::Standard(hundredths(30)));
        assert_eq!(used.shared, Some(hundredths(20)));
    }
    let sound = mark(&length(), &with(r#"{"own": "0.12 mm"}"#));
    assert_eq!(sound.problems, Vec::new());
}

/// What its repeats scatter by is in what each states: no doubt is cast by the instrument's.
#[test]
fn repeats_that_state_their_own_are_not_asked_for_again() {
    let mut facts = with(r#"{"own": "0.12 mm"}"#);
    let mut second = facts.readings["length"][0].clone();
    second.text = "151.2 mm".to_owned();
    facts.readings.get_mut("length").unwrap().push(second);
    let marking = mark(&length(), &facts);
    assert_eq!(marking.doubts, Vec::new());
}

#[test]
fn files_have_it_only_where_it_is_stated() {
    let written = |reading: &ReadingFact| serde_json::to_value(reading).unwrap();
    let plain = ReadingFact::of("150.2 mm");
    assert_eq!(written(&plain), json!({ "text": "150.2 mm" }));
    let mut stated = plain.clone();
    stated.stated = Some(Stated {
        own: "0.12 mm".to_owned(),
        shared: None,
    });
    let short = json!({ "text": "150.2 mm", "stated": { "own": "0.12 mm" } });
    assert_eq!(written(&stated), short);
    assert_eq!(
        serde_json::from_value::<ReadingFact>(short).unwrap(),
        stated
    );
    for wrong in [
        json!({ "text": "1", "stated": {} }),
        json!({ "text": "1", "stated": "0.12 mm" }),
        json!({ "text": "1", "stated": { "own": "0.12 mm", "half": "1" } }),
    ] {
        assert!(serde_json::from_value::<ReadingFact>(wrong).is_err());
    }
}

proptest! {
    /// Whatever a file says of itself is read, or told.
    #[test]
    fn any_text_is_read_or_told(own in ".{0,12}|-?[0-9]{1,9} ?(mm|in|deg)?", shared in ".{0,12}") {
        let stated = json!({ "own": own, "shared": shared });
        let facts = with(&stated.to_string());
        let marking = mark(&length(), &facts);
        let is_told = marking.problems.iter().any(|one| one.id == "length");
        let is_instruments = found(&facts).uncertainty == Uncertainty::Standard(hundredths(30));
        prop_assert!(is_told == is_instruments || own.contains("0.3"));
    }
}
