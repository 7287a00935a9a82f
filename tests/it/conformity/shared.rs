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
