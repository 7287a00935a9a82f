//! Readings that state their own uncertainty, with the sign of what they share: JCGM
//! 100:2008, 5.2.2, by hand.

use evenshod::conformity::{Method, Uncertain, measured_values};
use evenshod::marking::Facts;

/// A difference, and a length that is held against a band.
const RUBRIC: &str = r#"
[award]
pass = 3
[[sections]]
id = "all"
name = "All"
[[sections.criteria]]
id = "branches"
name = "Branches"
kind = "paired"
bands = [{ within = "1 mm", marks = 4 }]
[[sections.criteria]]
id = "length"
name = "Length"
kind = "toleranced"
bands = [{ from = "149 mm", to = "151 mm", marks = 4 }]
"#;

fn reading(text: &str, shared: &str) -> String {
    format!(
        r#"{{"text": "{text}", "instrument": "photo-gauge",
"stated": {{"own": "0.10 mm", "shared": "{shared}"}}}}"#
    )
}

fn facts(left: &str, right: &str, length: &[String]) -> Facts {
    let json = format!(
        r#"{{
"readings": {{"branches-left": [{left}], "branches-right": [{right}], "length": [{}]}},
"instruments": {{"photo-gauge": {{"name": "Photo gauge", "measures": "length",
  "standard_uncertainty": "0.3 mm", "shared": "0.2 mm", "source": "rendered photographs"}}}}}}"#,
        length.join(", ")
    );
    serde_json::from_str(&json).unwrap()
}

#[track_caller]
fn is_near(found: f64, millimetres: f64) {
    let wanted = millimetres * 1e6;
    assert!((found - wanted).abs() < 1e-3, "{found} for {wanted}");
}

fn difference(left: &str, right: &str) -> Uncertain {
    let facts = facts(&reading("150.2 mm", left), &reading("149.8 mm", right), &[]);
    measured_values(&super::rubric(RUBRIC), &facts)["branches"].clone()
}

#[test]
fn what_two_readings_share_leaves_their_difference() {
    let alike = difference("0.05 mm", "0.05 mm");
    is_near(alike.value, 0.4);
    is_near(alike.standard(), 2.0_f64.sqrt() * 0.10);
    assert_eq!(alike.shared, Vec::new());
    let both_below = difference("-0.05 mm", "-0.05 mm");
    is_near(both_below.standard(), 2.0_f64.sqrt() * 0.10);
}

#[test]
fn with_opposite_signs_it_counts_twice() {
    for (left, right, sum) in [("0.05 mm", "-0.05 mm", 0.1), ("-0.05 mm", "0.05 mm", -0.1)] {
        let opposite = difference(left, right);
        is_near(opposite.standard(), (0.02_f64 + 0.01).sqrt());
        assert_eq!(opposite.shared.len(), 1);
        assert_eq!(opposite.shared[0].0, "photo-gauge");
        is_near(opposite.shared[0].1, sum);
    }
}

/// Two photos of one length: what each has by itself may be the same fault of the same steel,
/// so it does not fall with their number, and the shared parts cancel as far as they differ.
#[test]
fn the_mean_of_repeats_is_as_sure_as_the_mean_of_them() {
    let nothing = reading("150 mm", "0 mm");
    let length = [
        reading("150.2 mm", "0.05 mm"),
        reading("149.8 mm", "-0.01 mm"),
    ];
    let facts = facts(&nothing, &nothing, &length);
    let found = measured_values(&super::rubric(RUBRIC), &facts);
    let mean = &found["length"];
    is_near(mean.value, 150.0);
    is_near(mean.own, 0.10);
    is_near(mean.shared[0].1, 0.02);
}

/// The probability that a difference lies in its band, by the normal distribution: with
/// opposite signs u = 0.1732 mm, and from 0.4 mm to 1 mm it is 3.4641 u, to -1 mm 8.08 u.
#[test]
fn the_marks_follow() {
    let facts = facts(
        &reading("150.2 mm", "0.05 mm"),
        &reading("149.8 mm", "-0.05 mm"),
        &[reading("150 mm", "0.05 mm")],
    );
    let json = serde_json::to_string(&facts).unwrap();
    let certainty = super::weighed(&super::rubric(RUBRIC), &json);
    // Python 3: statistics.NormalDist().cdf(0.6 / 0.03 ** 0.5).
    let wanted = 0.999_733_997_247_43;
    let found = super::chance(&certainty, "branches", "4");
    assert!((found - wanted).abs() < 1e-7, "{found} for {wanted}");
}

/// Both criteria hang on one shared part. Of the branches it is much larger than what is each
/// reading's own, and it moves them apart: P = ∫ φ(z) P(difference in its band | z) P(length in its band
/// | z) dz, in Python 3 by the trapezoidal rule with `statistics.NormalDist`, 100,000 steps
/// from -10 to 10.
#[test]
fn a_shared_part_that_moves_two_readings_apart_is_integrated_finely() {
    let rubric = RUBRIC
        .replace("pass = 3", "pass = 8")
        .replace("within = \"1 mm\"", "within = \"0.5 mm\"")
        .replace("from = \"149 mm\"", "from = \"149.9 mm\"")
        .replace("to = \"151 mm\"", "to = \"150.12 mm\"");
    let facts = facts(
        &reading("150.2 mm", "0.1 mm"),
        &reading("149.8 mm", "-0.1 mm"),
        &[reading("150.1 mm", "0.02 mm")],
    );
    let json = serde_json::to_string(&facts).unwrap();
    let json = json.replace("0.10 mm", "0.02 mm");
    let certainty = super::weighed(&super::rubric(&rubric), &json);
    assert_eq!(certainty.method, Method::Quadrature);
    let (found, wanted) = (certainty.award.unwrap().pass, 0.616_763_471_971_96);
    assert!((found - wanted).abs() < 1e-9, "{found} for {wanted}");
}
