//! What readings were taken with, repeats that disagree, and amounts that cannot be.

use evenshod::marking::{InstrumentFact, InstrumentFault, Marking, mark};
use evenshod::quantity::Dimension;
use evenshod::rubric::{Rubric, ShapeWord};
use proptest::prelude::*;

use super::{facts, rubric};

fn of(criteria: &str) -> Rubric {
    rubric(&format!(
        r#"
award = {{ pass = "65 %" }}
[[instruments]]
id = "rule"
name = "Steel rule"
half_width = "0.5 mm"
repeatability = "0.3 mm"
[[instruments]]
id = "caliper"
name = "Caliper"
half_width = "0.05 mm"
[[instruments]]
id = "protractor"
name = "Protractor"
measures = "angle"
half_width = "0.5 deg"
[[sections]]
id = "all"
name = "All"
[[sections.criteria]]
{criteria}
"#
    ))
}

fn width() -> Rubric {
    of(r#"
id = "width"
name = "Width"
kind = "toleranced"
target = "129 mm"
instrument = "rule"
bands = [{ within = "1.5 mm", marks = 4 }]
"#)
}

fn given(rubric: &Rubric, json: &str) -> Marking {
    mark(rubric, &facts(json))
}

fn problems(marking: &Marking) -> Vec<(&str, &str)> {
    let problems = marking.problems.iter();
    problems
        .map(|one| (one.id.as_str(), one.message.as_str()))
        .collect()
}

fn doubts(marking: &Marking) -> Vec<&str> {
    let doubts = marking.doubts.iter();
    doubts.map(|one| one.message.as_str()).collect()
}

#[test]
fn a_reading_by_an_instrument_that_cannot_have_taken_it_is_told_and_marked_all_the_same() {
    let unreadable = r#", "instruments": {"laser": {"name": "Laser", "measures": "length",
        "half_width": "a hair", "source": "by guess"}}"#;
    let cases = [
        ("caliper", "", ""),
        (
            "micrometer",
            "",
            "there is no instrument `micrometer` here; choose the instrument that the reading was \
             taken with",
        ),
        (
            "protractor",
            "",
            "Protractor measures angle, and this is length; choose the instrument that the reading \
             was taken with",
        ),
        (
            "laser",
            unreadable,
            "the figures of Laser cannot be used: half-width: ",
        ),
    ];
    for (instrument, rest, wanted) in cases {
        let json = format!(
            r#"{{"readings": {{"width": [
                {{"text": "129", "instrument": "{instrument}"}},
                {{"text": "129.1", "instrument": "{instrument}"}}]}}{rest}}}"#
        );
        let marking = given(&width(), &json);
        assert_eq!(marking.marks.to_string(), "4", "{instrument}");
        match (wanted, problems(&marking).as_slice()) {
            ("", []) => {}
            (wanted, [("width", said)]) if !wanted.is_empty() => {
                assert!(said.starts_with(wanted), "{said}");
            }
            (_, found) => panic!("{instrument}: {found:?}"),
        }
    }
}

/// Factors of ISO 5725-6:1994, table 1 (from memory): 2.8 for two, 3.3 for three.
/// Readings at several places of one shoe are no repeats: they may differ as it does.
#[test]
fn readings_at_several_places_may_differ() {
    let rubric = of(r#"
id = "inset"
name = "Inset"
kind = "toleranced"
target = "8 mm"
instrument = "rule"
several_places = true
bands = [{ within = "1.5 mm", marks = 4 }]
"#);
    let marking = given(&rubric, r#"{"readings": {"inset": ["7", "9.5", "8"]}}"#);
    assert_eq!(doubts(&marking), Vec::<&str>::new());
    assert_eq!(marking.marks.to_string(), "4");
}

#[test]
fn repeats_that_differ_by_more_than_the_instrument_explains_are_asked_for_again() {
    let said = |values: &str| {
        let marking = given(
            &width(),
            &format!(r#"{{"readings": {{"width": [{values}]}}}}"#),
        );
        assert!(problems(&marking).is_empty());
        assert_eq!(marking.marks.to_string(), "4", "the mean counts");
        doubts(&marking).join("\n")
    };
    assert_eq!(said(r#""129", "129.84""#), "");
    assert_eq!(
        said(r#""129", "129.9""#),
        "these two differ by 0.9 mm, more than the 0.84 mm that repeats with steel rule explain: \
         measure again"
    );
    assert_eq!(said(r#""129", "129.9", "129.5""#), "");
    assert_eq!(
        said(r#""129", "130", "129.5""#),
        "these 3 differ by 1 mm, more than the 0.99 mm that repeats with steel rule explain: \
         measure again"
    );
    // One taken hot is not used, and of the caliper no repeatability is known.
    assert_eq!(said(r#""129", {"text": "131", "hot": true}"#), "");
    assert_eq!(
        said(r#""129", {"text": "130", "instrument": "caliper"}"#),
        ""
    );
    assert_eq!(said(r#""129""#), "");
}

#[test]
fn the_members_of_a_series_may_differ() {
    let series = of(r#"
id = "holes"
name = "Holes"
kind = "spread"
count = 2
instrument = "rule"
bands = [{ at_most = "30 mm", marks = 4 }]
"#);
    let marking = given(&series, r#"{"readings": {"holes": ["20", "40"]}}"#);
    assert_eq!((doubts(&marking), marking.complete), (vec![], true));
}

#[test]
fn an_amount_below_zero_is_no_reading_unless_the_bands_reach_there() {
    let below = "a length below zero cannot be measured; write how much it is";
    let at_most = |limit: &str| {
        of(&format!(
            "id = \"gap\"\nname = \"Gap\"\nkind = \"toleranced\"\nbands = [{{ at_most = \"{limit}\", \
             marks = 4 }}]"
        ))
    };
    let refused = [
        (width(), "width", "-129"),
        (width(), "width", "-1..129"),
        (at_most("0.5 mm"), "gap", "-0.2"),
    ];
    for (rubric, slot, text) in refused {
        let marking = given(
            &rubric,
            &format!(r#"{{"readings": {{"{slot}": ["{text}"]}}}}"#),
        );
        assert_eq!(problems(&marking), [(slot, below)], "{text}");
        assert_eq!(marking.missing, [slot]);
    }
    let signed = of(r#"
id = "off"
name = "Off the middle"
kind = "toleranced"
target = "0 mm"
bands = [{ within = "2 mm", marks = 4 }]
"#);
    let square = of(r#"
id = "square"
name = "Bar square"
kind = "toleranced"
measures = "angle"
target = "0 deg"
bands = [{ within = "2 deg", marks = 4 }]
"#);
    let meant = [
        (signed, r#"{"readings": {"off": ["-1.5"]}}"#),
        (square, r#"{"readings": {"square": ["-1.5"]}}"#),
        (at_most("0 mm"), r#"{"readings": {"gap": ["-0.2"]}}"#),
    ];
    for (rubric, json) in meant {
        let marking = given(&rubric, json);
        assert_eq!(problems(&marking), [], "{json}");
        assert_eq!(marking.marks.to_string(), "4", "{json}");
    }
}

#[test]
fn a_reading_for_others_is_no_amount_below_zero_either() {
    let criterion = |reading: &str| {
        rubric(&format!(
            r#"
award = {{ pass = "65 %" }}
[[readings]]
id = "thickness"
name = "Thickness"
[[sections]]
id = "all"
name = "All"
[[sections.criteria]]
id = "depth"
name = "Depth"
kind = "toleranced"
{reading}
bands = [{{ within = "1 mm", marks = 4 }}]
"#
        ))
    };
    let json = r#"{"readings": {"thickness": ["-10"], "depth": ["5"]}}"#;
    let marking = given(&criterion("target = \"1/2 of thickness\""), json);
    let said = problems(&marking);
    assert_eq!(said.len(), 1, "{said:?}");
    assert_eq!(said[0].0, "thickness");
    assert_eq!(marking.missing, ["depth"]);
    // A criterion that measures it says by its bands what may be.
    let own = criterion("reading = \"thickness\"\ntarget = \"0 mm\"");
    let marking = given(&own, r#"{"readings": {"thickness": ["-0.5"]}}"#);
    assert_eq!(problems(&marking), []);
}

fn figure() -> impl Strategy<Value = Option<String>> {
    prop::option::of(prop_oneof![
        ".{0,12}",
        "-?[0-9]{1,3}([.,][0-9]{1,3})? ?(mm|in|deg|g|)",
        Just(" ".to_owned()),
    ])
}

proptest! {
    /// Whatever is typed, figures come out that can be used, or words.
    #[test]
    fn figures_are_read_or_refused_in_words(
        half_width in figure(),
        shape in prop::option::of(prop::sample::select(ShapeWord::WORDS)),
        level_share in figure(),
        standard_uncertainty in figure(),
        repeatability in figure(),
        shared in figure(),
    ) {
        let fact = InstrumentFact {
            name: "It".to_owned(),
            measures: Dimension::Length,
            half_width,
            shape: shape.map(|(_, word)| word),
            level_share,
            standard_uncertainty,
            repeatability,
            shared,
            source: String::new(),
        };
        match fact.read("it") {
            Ok(read) => {
                let figures = [read.repeatability, read.shared];
                prop_assert_eq!(read.dimension(), Dimension::Length);
                // Nothing is farther off than its half-width.
                let amount = read.uncertainty.amount().base.to_f64();
                prop_assert!(read.uncertainty.standard() > 0.0);
                prop_assert!(read.uncertainty.standard() <= amount);
                for figure in figures.into_iter().flatten() {
                    prop_assert!(!figure.base.is_negative() && !figure.base.is_zero());
                }
            }
            Err(InstrumentFault { why, .. }) => prop_assert!(!why.is_empty()),
        }
    }
}
