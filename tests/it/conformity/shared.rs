//! Readings that share the zero of one caliper, against SciPy's bivariate normal:
//! `tests/data/conformity/bivariate.py`, which says how to run it.

use super::{chance, weighed};
use evenshod::conformity::Method;
use serde_json::Value;

fn two(own: &Value, shared: &Value, limits: &Value) -> String {
    let band = |at: usize| format!("from = {}, to = {}", limits[at][0], limits[at][1]);
    format!(
        r#"
[award]
pass = 3
[[instruments]]
id = "caliper"
name = "Caliper"
standard_uncertainty = {own}
shared = {shared}
[[sections]]
id = "all"
name = "All"
[[sections.criteria]]
id = "first"
name = "First"
kind = "toleranced"
instrument = "caliper"
bands = [{{ {}, marks = 1 }}]
[[sections.criteria]]
id = "second"
name = "Second"
kind = "toleranced"
instrument = "caliper"
bands = [{{ {}, marks = 2 }}]
"#,
        band(0),
        band(1)
    )
}

#[test]
fn the_joint_probability_is_that_of_a_bivariate_normal() {
    let cases = include_str!("../../data/conformity/bivariate.json");
    let cases: Vec<Value> = serde_json::from_str(cases).unwrap();
    assert_eq!(cases.len(), 4);
    for case in cases {
        let [a, b] = [&case["readings"][0], &case["readings"][1]];
        let rubric = super::rubric(&two(&case["own"][0], &case["shared"], &case["limits"]));
        let facts = format!(r#"{{"readings": {{"first": ["{a}"], "second": ["{b}"]}}}}"#);
        let certainty = weighed(&rubric, &facts);
        assert_eq!(certainty.method, Method::Quadrature);
        let close = |found: f64, wanted: &Value| {
            let wanted = wanted.as_f64().unwrap();
            assert!(
                (found - wanted).abs() < 1e-9,
                "{found} for {wanted} in {case}"
            );
        };
        close(certainty.award.unwrap().pass, &case["both"]);
        close(chance(&certainty, "first", "1"), &case["first"]);
        close(chance(&certainty, "second", "2"), &case["second"]);
    }
}

/// The more criteria hang on one shared part, the sharper is what has to be integrated over
/// it. Against SciPy's adaptive quadrature: `tests/data/conformity/many.py`, which says how
/// to run it.
#[test]
fn many_criteria_by_one_caliper_come_out_as_by_adaptive_quadrature() {
    let cases = include_str!("../../data/conformity/many.json");
    let cases: Vec<Value> = serde_json::from_str(cases).unwrap();
    assert_eq!(cases.len(), 7);
    for case in cases {
        let count = |key: &str| case[key].as_u64().unwrap();
        let (banded, all) = (count("two_sided"), count("two_sided") + count("one_sided"));
        let within = case["within"].as_f64().unwrap();
        let mut text = format!(
            r#"
[award]
pass = {all}
[[instruments]]
id = "caliper"
name = "Caliper"
standard_uncertainty = {}
shared = {}
[[sections]]
id = "all"
name = "All"
"#,
            case["own"], case["shared"]
        );
        let mut readings = Vec::new();
        for criterion in 0..all {
            let band = if criterion < banded {
                format!("from = {}, to = {}", 20.0 - within, 20.0 + within)
            } else {
                format!("at_most = {}", 20.0 + within)
            };
            text.push_str(&format!(
                "[[sections.criteria]]\nid = \"c{criterion}\"\nname = \"C\"\nkind = \"toleranced\"\n\
                 instrument = \"caliper\"\nbands = [{{ {band}, marks = 1 }}]\n"
            ));
            readings.push(format!(r#""c{criterion}": ["20"]"#));
        }
        let facts = format!(r#"{{"readings": {{{}}}}}"#, readings.join(", "));
        let certainty = weighed(&super::rubric(&text), &facts);
        assert_eq!(certainty.method, Method::Quadrature);
        let (found, wanted) = (certainty.award.unwrap().pass, case["all"].as_f64().unwrap());
        assert!(
            (found - wanted).abs() < 1e-7,
            "{found} for {wanted} in {case}"
        );
    }
}

/// One caliper over eight sections with minima of their own: the sums of the sections come
/// together in more ways than can be kept apart, so it is drawn. The award is that all reach
/// their minimum, which here is that every reading lies in its band; the reference is that
/// of [`many_criteria_by_one_caliper_come_out_as_by_adaptive_quadrature`], last case.
#[test]
fn what_comes_together_in_too_many_ways_is_drawn() {
    let cases = include_str!("../../data/conformity/many.json");
    let cases: Vec<Value> = serde_json::from_str(cases).unwrap();
    let wanted = cases[6]["all"].as_f64().unwrap();
    let mut text = r#"
[award]
pass = 25
[[instruments]]
id = "caliper"
name = "Caliper"
standard_uncertainty = 0.3
shared = 0.3
"#
    .to_owned();
    let mut readings = Vec::new();
    for criterion in 0..25 {
        if criterion % 5 == 0 {
            text.push_str(&format!(
                "[[sections]]\nid = \"s{criterion}\"\nname = \"S\"\nminimum = \"100 %\"\n"
            ));
        }
        // Marks of 1, 2, 4, 8 and 16 parts, so that each set of criteria has a sum of its own.
        let marks = 1 << (criterion % 5);
        text.push_str(&format!(
            "[[sections.criteria]]\nid = \"c{criterion}\"\nname = \"C\"\nkind = \"toleranced\"\n\
             instrument = \"caliper\"\nbands = [{{ from = 19, to = 21, marks = {marks} }}]\n"
        ));
        readings.push(format!(r#""c{criterion}": ["20"]"#));
    }
    let facts = format!(r#"{{"readings": {{{}}}}}"#, readings.join(", "));
    let certainty = weighed(&super::rubric(&text), &facts);
    assert!(matches!(certainty.method, Method::Draws(_)));
    let award = certainty.award.unwrap();
    let error = award.standard_error.unwrap();
    assert!(
        (award.pass - wanted).abs() < 4.0 * error,
        "{award:?} for {wanted}"
    );
    let all: f64 = certainty
        .total
        .iter()
        .map(|chance| chance.probability)
        .sum();
    assert!((all - 1.0).abs() < 1e-9);
}

/// A zero error cancels in the difference of two readings by one instrument, whatever its
/// size; the difference of two normal values is normal with the squares added.
#[test]
fn a_zero_error_cancels_in_a_difference() {
    let of = |shared: &str| {
        let text = format!(
            r#"
[award]
pass = 1
[[instruments]]
id = "caliper"
name = "Caliper"
standard_uncertainty = 0.3
{shared}
[[sections]]
id = "all"
name = "All"
[[sections.criteria]]
id = "alike"
name = "Alike"
kind = "paired"
instrument = "caliper"
bands = [{{ within = 1, marks = 1 }}]
"#
        );
        let facts = r#"{"readings": {"alike-left": ["20.6"], "alike-right": ["20"]}}"#;
        weighed(&super::rubric(&text), facts)
    };
    let (without, with) = (of(""), of("shared = 5"));
    assert_eq!(with.method, Method::Exact);
    // SciPy 1.17.1: norm.cdf(0.4 / (0.3 * 2**0.5)) - norm.cdf(-1.6 / (0.3 * 2**0.5)).
    let scipy = 0.827_029_486_501_826_5;
    for found in [&without, &with] {
        let pass = found.award.unwrap().pass;
        assert!((pass - scipy).abs() < 1e-9, "{pass}");
    }
}
