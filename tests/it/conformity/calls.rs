//! Close calls, decisive ones, what would settle them, and decision rules.

use super::{facts, weighed};
use evenshod::conformity::{chance_words, decide, mark_and_decide};
use evenshod::marking::Award;
use evenshod::quantity::{Exact, Unit};
use evenshod::rubric::DecisionRule;

/// Two widths of which one decides, and a level by eye.
fn rubric(award: &str) -> evenshod::rubric::Rubric {
    super::rubric(&format!(
        r#"
[[instruments]]
id = "rule"
name = "Steel rule"
standard_uncertainty = "0.5 mm"
repeatability = "0.4 mm"
[[instruments]]
id = "caliper"
name = "Caliper"
standard_uncertainty = "0.1 mm"
in_place_of = ["rule"]
[[instruments]]
id = "depth"
name = "Depth gauge"
standard_uncertainty = "0.01 mm"
[award]
{award}
[[sections]]
id = "sizes"
name = "Sizes"
[[sections.criteria]]
id = "width"
name = "Width"
kind = "toleranced"
instrument = "rule"
target = "120 mm"
bands = [{{ within = "1 mm", marks = 6 }}, {{ within = "3 mm", marks = 2 }}]
[[sections.criteria]]
id = "length"
name = "Length"
kind = "toleranced"
instrument = "rule"
target = "130 mm"
bands = [{{ within = "1 mm", marks = 4 }}, {{ within = "3 mm", marks = 3 }}]
[[sections.criteria]]
id = "eye"
name = "By eye"
kind = "judged"
numbers = {{ least = 0, most = 10 }}
"#
    ))
}

const FACTS: &str = r#"{"readings": {"width": ["120.7"], "length": ["130.9"]},
                        "levels": {"eye": "5"}}"#;

/// Width gives 6 or 2, length 4 or 3, the eye 5: with 12 to pass only the width decides,
/// as 6 + 3 + 5 pass and 2 + 4 + 5 do not.
#[test]
fn only_what_can_change_the_award_is_decisive() {
    let certainty = weighed(&rubric("pass = 12"), FACTS);
    let [width, length] = [&certainty.criteria[0], &certainty.criteria[1]];
    assert!(width.is_close && length.is_close);
    assert!(width.is_decisive && !length.is_decisive);
    // A length that gives nothing would, and it is 2.1 mm from there: F(-3.28), SciPy.
    assert!(
        (length.changes - 0.000_519).abs() < 0.000_2,
        "{}",
        length.changes
    );
    // What changes the award is that the width is not as given.
    assert!((width.changes - (1.0 - width.probability)).abs() < 0.001);
    let pass = certainty.award.unwrap().pass;
    assert!((pass - width.probability).abs() < 0.001);
}

/// By hand: standard uncertainty 0.1 mm, 0.3 mm from the limit of 1 mm, and far from the
/// other: F(3), SciPy 1.17.1 `norm.cdf(3)`.
#[test]
fn the_instrument_that_stands_in_settles_it() {
    let certainty = weighed(&rubric("pass = 12"), FACTS);
    let settle = certainty.criteria[0].settle.as_ref().unwrap();
    assert_eq!((settle.name.as_str(), settle.readings), ("Caliper", 1));
    assert!((settle.probability - 0.998_650_101_968_369_9).abs() < 1e-9);
    // Nothing stands in for the caliper: it is read again, here without any gain, as it has
    // no repeatability of its own.
    let by_caliper = r#"{"readings": {"width": [{"text": "120.95", "instrument": "caliper"}],
                         "length": ["130"]}, "levels": {"eye": "5"}}"#;
    let certainty = weighed(&rubric("pass = 12"), by_caliper);
    assert!(certainty.criteria[0].is_close);
    assert_eq!(certainty.criteria[0].settle, None);
}

/// The marks stay those of the best estimate under every rule.
#[test]
fn decision_rules_leave_the_marks_alone() {
    let decided =
        |award: &str, json: &str| mark_and_decide(&rubric(award), &facts(json), Unit::Millimetre);
    let simple = decided("pass = 12", FACTS);
    assert_eq!(simple.award, Award::Pass);
    let guarded = decided(
        "pass = 12\ndecision = \"guarded acceptance\"\nrisk = 5",
        FACTS,
    );
    assert_eq!(guarded.award, Award::Undecided);
    assert_eq!(guarded.marks, simple.marks);
    let why = guarded.award_reasons.last().unwrap();
    assert!(
        why.contains("at least 95 %") && why.contains("second examiner"),
        "{why}"
    );
    // A risk that is as large as what is left passes.
    let wide = decided(
        "pass = 12\ndecision = \"guarded acceptance\"\nrisk = 40",
        FACTS,
    );
    assert_eq!(wide.award, Award::Pass);

    let under = r#"{"readings": {"width": ["121.1"], "length": ["130"]}, "levels": {"eye": "5"}}"#;
    assert_eq!(decided("pass = 12", under).award, Award::NotYet);
    let rule = "pass = 12\ndecision = \"guarded rejection\"\nrisk = 5";
    assert_eq!(decided(rule, under).award, Award::Undecided);
    let far = r#"{"readings": {"width": ["122.6"], "length": ["130"]}, "levels": {"eye": "5"}}"#;
    assert_eq!(decided(rule, far).award, Award::NotYet);
    // What is incomplete stays so.
    let open = r#"{"readings": {"width": ["120.7"]}}"#;
    assert_eq!(decided(rule, open).award, Award::Incomplete);
}

/// Exactly the risk is still accepted, more is not.
#[test]
fn a_rule_on_its_limit() {
    let risk = Exact::whole(25);
    let accept = DecisionRule::GuardedAcceptance { risk };
    assert_eq!(decide(accept, Award::Pass, 0.75), Award::Pass);
    assert_eq!(decide(accept, Award::Pass, 0.749), Award::Undecided);
    assert_eq!(decide(accept, Award::NotYet, 0.9), Award::NotYet);
    let reject = DecisionRule::GuardedRejection { risk };
    assert_eq!(decide(reject, Award::NotYet, 0.25), Award::NotYet);
    assert_eq!(decide(reject, Award::NotYet, 0.251), Award::Undecided);
    assert_eq!(decide(reject, Award::Pass, 0.1), Award::Pass);
    assert_eq!(decide(DecisionRule::Simple, Award::Pass, 0.5), Award::Pass);
}

#[test]
fn a_probability_never_looks_surer_than_it_is() {
    for (share, words) in [
        (0.0, "0 %"),
        (1e-7, "under 0.1 %"),
        (0.005, "0.5 %"),
        (0.842, "84.2 %"),
        (0.9951, "99.5 %"),
        (0.99999, "over 99.9 %"),
        (1.0, "100 %"),
    ] {
        assert_eq!(chance_words(share), words);
    }
}

/// An instrument that is off by far more than the band is wide, and a band of no width at
/// all: the marks stand, and how little that says is said.
#[test]
fn uncertainty_larger_than_the_band() {
    let wide = rubric("pass = 12");
    let coarse = r#"{"readings": {"width": ["120"], "length": ["130"]}, "levels": {"eye": "5"},
        "instruments": {"rule": {"name": "Pace", "measures": "length",
            "half_width": "60 mm", "source": "paced out"}}}"#;
    let certainty = weighed(&wide, coarse);
    assert_eq!(certainty.given.exact_text(), "15");
    for criterion in &certainty.criteria {
        // By hand: u = 60 / sqrt 3, and 2 F(1 / u) - 1; SciPy 1.17.1.
        assert!(
            (criterion.probability - 0.023_029).abs() < 1e-5,
            "{}",
            criterion.probability
        );
        assert!(criterion.is_close);
    }
    let text = r#"
[award]
pass = 1
[[instruments]]
id = "rule"
name = "Rule"
half_width = "0.5 mm"
[[sections]]
id = "all"
name = "All"
[[sections.criteria]]
id = "size"
name = "Size"
kind = "toleranced"
instrument = "rule"
target = "20 mm"
bands = [{ within = 0, marks = 1 }]
"#;
    let certainty = weighed(&super::rubric(text), r#"{"readings": {"size": ["20"]}}"#);
    assert_eq!(certainty.given.exact_text(), "1");
    assert_eq!(certainty.award.unwrap().pass, 0.0);
    assert!(certainty.criteria[0].is_decisive);
}

/// Totals of 0 to 4 marks: so much is left out at either end as may be, and never more.
#[test]
fn a_total_lies_between_marks_with_at_least_the_level() {
    let chances = [(0, 0.02), (1, 0.08), (2, 0.6), (3, 0.26), (4, 0.04)];
    let mut certainty = weighed(&rubric("pass = 4"), "{}");
    certainty.total = chances
        .map(|(marks, probability)| evenshod::conformity::MarksChance {
            marks: evenshod::quantity::Marks::whole(marks),
            probability,
        })
        .to_vec();
    let within = |level| {
        let (least, most) = certainty.total_within(level).unwrap();
        (least.to_string(), most.to_string())
    };
    let words = |least: &str, most: &str| (least.to_owned(), most.to_owned());
    assert_eq!(within(0.95), words("1", "4"));
    assert_eq!(within(0.9), words("1", "3"));
    assert_eq!(within(0.5), words("2", "3"));
    certainty.total.clear();
    assert_eq!(certainty.total_within(0.95), None);
}
