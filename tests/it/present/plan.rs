//! The plan's form, and the document that it comes to.

use std::collections::BTreeMap;

use evenshod::chart::Side;
use evenshod::present::plan::{
    self, OwnRecord, PLAN_CHOICE, PLAN_FIELDS, PLAN_GAUGE, PLAN_OWN, PLAN_PAST, PlanShown,
    PlanTyped, gauge_usual, plan_gauge, plan_usual,
};
use evenshod::rubric::{Rubric, read_rubric};
use evenshod::sheet::{Block, Document, PLAN_BEHIND};
use proptest::prelude::*;

fn rubric(text: &str) -> Rubric {
    read_rubric(text).rubric.unwrap()
}

fn bar_shoe() -> Rubric {
    rubric(include_str!("../../../rubrics/straight-bar-shoe.toml"))
}

fn hind() -> Rubric {
    rubric(include_str!("../../../rubrics/hind-shoe.toml"))
}

fn plan_shown(rubric: &Rubric, typed: &PlanTyped) -> PlanShown {
    plan::plan_shown(rubric, typed, &OwnRecord::default())
}

fn typed(fields: &[(&str, &str)]) -> PlanTyped {
    let fields = fields.iter();
    PlanTyped(
        fields
            .map(|(id, text)| ((*id).to_owned(), (*text).to_owned()))
            .collect(),
    )
}

fn words(document: &Document) -> String {
    serde_json::to_string(document).unwrap()
}

#[test]
fn a_plan_says_what_to_cut_and_where_to_mark() {
    for rubric in [bar_shoe(), hind()] {
        let shown = plan_shown(&rubric, &PlanTyped::default());
        assert_eq!(shown.wrong, BTreeMap::new());
        let headings: Vec<&str> = shown
            .document
            .blocks
            .iter()
            .filter_map(|block| match block {
                Block::Heading { text, .. } => Some(text.as_str()),
                _ => None,
            })
            .collect();
        let wanted = [
            "The length to cut",
            "Marks on the bar",
            "What it weighs",
            "What each method says",
            "Measured hot",
            "Beside old rules",
        ];
        assert_eq!(headings, wanted);
        // What a page may fold is there under that name, and all but the first two parts.
        assert_eq!(PLAN_BEHIND, &wanted[2..]);
        assert!(words(&shown.document).contains("toe nail, outer"));
    }
}

/// What the fields show at first is what they are read as: typed out, nothing changes.
#[test]
fn the_usual_numbers_typed_are_the_usual_plan() {
    for rubric in [bar_shoe(), hind()] {
        let usual: Vec<(&str, String)> = plan_usual(&rubric).into_iter().collect();
        let fields: Vec<(&str, &str)> = usual
            .iter()
            .map(|(id, text)| (*id, text.as_str()))
            .collect();
        let shown = plan_shown(&rubric, &typed(&fields));
        assert_eq!(shown, plan_shown(&rubric, &PlanTyped::default()));
    }
}

/// 5 1/4 in at 900 °C is 5.1888 in cold, 131.8 mm. *Source:* EN 1993-1-2:2005, 3.4.1.1.
#[test]
fn a_size_measured_hot_is_told_cold() {
    let asked = typed(&[("plan-hot-size", "5 1/4 in"), ("plan-hot-heat", "900 °C")]);
    let words = words(&plan_shown(&bar_shoe(), &asked).document);
    assert!(words.contains("comes to 131.8 mm cold"), "{words}");
    let asked = typed(&[("plan-hot-size", "5 1/4 in"), ("plan-hot-heat", "1500")]);
    let shown = plan_shown(&bar_shoe(), &asked);
    assert!(self::words(&shown.document).contains("outside 20 to 1200"));
}

/// 1652 °F is 900 °C. *Source:* the definition of the scale.
#[test]
fn how_hot_it_was_may_be_said_in_fahrenheit_and_must_be_said() {
    let size = ("plan-hot-size", "5 1/4 in");
    for heat in ["1652 °F", "1652F", "900 °C", "900"] {
        let asked = typed(&[size, ("plan-hot-heat", heat)]);
        let words = words(&plan_shown(&bar_shoe(), &asked).document);
        assert!(words.contains("at 900 °C comes to 131.8 mm cold"), "{heat}");
    }
    let wrong = plan_shown(&bar_shoe(), &typed(&[size])).wrong;
    assert!(
        wrong["plan-hot-heat"].contains("used together"),
        "{wrong:?}"
    );
}

#[test]
fn what_cannot_be_read_is_told_where_it_stands() {
    let asked = typed(&[
        ("plan-lap", "an inch"),
        ("plan-heats", "a few"),
        ("plan-hoof-length", "130"),
        (PLAN_CHOICE, "own"),
        (PLAN_PAST.id, "356; 130; 140\n356; 130"),
    ]);
    let wrong = plan_shown(&bar_shoe(), &asked).wrong;
    let told: Vec<&str> = wrong.keys().copied().collect();
    let wanted = [
        "plan-heats",
        "plan-hoof-width",
        "plan-lap",
        PLAN_OWN.id,
        PLAN_PAST.id,
    ];
    assert_eq!(told, wanted);
    assert!(wrong[PLAN_PAST.id].starts_with("Line 2: "), "{wrong:?}");
}

/// A length of one's own moves the marks.
#[test]
fn a_length_of_my_own_counts() {
    let asked = typed(&[(PLAN_CHOICE, "own"), (PLAN_OWN.id, "16 in")]);
    let words = words(&plan_shown(&bar_shoe(), &asked).document);
    // 16 in is 406.4 mm, and its heel mark lies 2 in, 50.8 mm, from each end: common practice,
    // no source.
    assert!(words.contains("406.4 mm, as you chose"), "{words}");
    assert!(words.contains("50.8 mm"), "{words}");
}

/// The bar shoe gives most marks within 1.5 mm, which the field shows at first.
#[test]
fn the_tolerance_of_a_gauge_is_typed() {
    let rubric = bar_shoe();
    let shown = |text: &str| {
        let asked = typed(&[(PLAN_GAUGE, text)]);
        let shown = plan_gauge(&rubric, &asked, Side::Ground);
        (words(&shown.document.unwrap()), shown.wrong)
    };
    assert_eq!(gauge_usual(&rubric), "1.5 mm");
    let usual = plan_gauge(&rubric, &PlanTyped::default(), Side::Ground);
    let usual = words(&usual.document.unwrap());
    assert!(
        usual.contains("±1.5 mm of width and ±1.5 mm of length, as the rubric gives"),
        "{usual}"
    );
    for text in ["", " ", "1.5 mm"] {
        assert_eq!(shown(text), (usual.clone(), String::new()), "{text}");
    }
    // 1/16 in is 1.5875 mm.
    for text in ["2.25", "2.25 mm", "1/16 in"] {
        let (words, wrong) = shown(text);
        assert!(words.contains("mm of length, as you chose"), "{words}");
        assert_eq!(wrong, "");
    }
    assert!(shown("1/16 in").0.contains("±1.59 mm of width"));
    for text in ["0", "-1", "30", "wide"] {
        let (words, wrong) = shown(text);
        assert_eq!(words, usual, "{text}");
        assert!(!wrong.is_empty(), "{text}");
    }
    assert_eq!(
        shown("30").1,
        "`30` is no tolerance of a gauge. Write how far a shoe may be off to either side, above \
         zero and at most 20 mm."
    );
}

/// A piece in inches has no millimetre in its refusals, cautions and left-out marks.
#[test]
fn refusals_speak_the_unit_of_the_page() {
    let mut rubric = hind();
    rubric.unit = evenshod::quantity::Unit::Inch64;
    let fields = [
        (PLAN_CHOICE, "own"),
        (PLAN_OWN.id, "6 in"),
        ("plan-tape", "14 in"),
        (
            PLAN_PAST.id,
            "9 in; 3 in; 4 in\n9 in; 3 in; 4 in\n9 in; 3 in; 4 in",
        ),
    ];
    let told = words(&plan_shown(&rubric, &typed(&fields)).document);
    assert!(told.contains("is off a bar of 6 in"), "{told}");
    assert!(told.contains("come to 7 in to 7 in together"), "{told}");
    assert!(!told.contains(" mm "), "{told}");
    let fields = [(PLAN_CHOICE, "own"), (PLAN_OWN.id, "1 in")];
    let told = words(&plan_shown(&rubric, &typed(&fields)).document);
    assert!(
        told.contains("the length to cut is 1 in; a plan takes 1 31/32 in to 118 1/8 in"),
        "{told}"
    );
    rubric.piece.fuller = None;
    rubric.piece.toe.radius = Some(evenshod::quantity::Length::read("10 in").unwrap());
    let told = words(&plan_shown(&rubric, &PlanTyped::default()).document);
    assert!(
        told.contains("a toe radius of 10 in does not fit a half width of"),
        "{told}"
    );
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    #[test]
    fn whatever_is_typed_is_answered(texts in prop::collection::vec("[-0-9./; a-z%°\n]{0,14}", PLAN_FIELDS.len() + 1)) {
        let ids = PLAN_FIELDS.iter().map(|field| field.id).chain([PLAN_PAST.id]);
        let fields: Vec<(&str, &str)> = ids.zip(texts.iter().map(String::as_str)).collect();
        let shown = plan_shown(&hind(), &typed(&fields));
        prop_assert!(!shown.document.blocks.is_empty());
    }
}
