//! The plan's form, and the document that it comes to.

use std::collections::BTreeMap;

use evenshod::present::plan::{
    self, OwnRecord, PLAN_CHOICE, PLAN_FIELDS, PLAN_OWN, PLAN_PAST, PlanShown, PlanTyped,
    plan_usual,
};
use evenshod::rubric::{Rubric, read_rubric};
use evenshod::sheet::{Block, Document};
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
