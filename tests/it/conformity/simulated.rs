//! Against a program of its own that marks a million pieces with readings drawn anew:
//! `tests/data/conformity/simulate.py`, which says how to run it.

use super::{read, weighed};
use evenshod::conformity::{Certainty, Method};
use evenshod::rubric::shipped;
use serde_json::Value;

/// A share of so many draws, give or take four standard errors, and what two sets of
/// draws differ by where ours are drawn too.
fn is_near(found: f64, share: f64, draws: f64, ours: f64) -> bool {
    let variance = (share * (1.0 - share)).max(1.0 / draws);
    (found - share).abs() <= 4.0 * (variance / draws + variance / ours).sqrt()
}

#[track_caller]
fn compare(certainty: &Certainty, simulated: &str) {
    let simulated: Value = serde_json::from_str(simulated).unwrap();
    let draws = simulated["draws"].as_f64().unwrap();
    let ours = match certainty.method {
        Method::Draws(draws) => f64::from(draws),
        _ => f64::INFINITY,
    };
    let near = |what: &str, found: f64, share: &Value| {
        let share = share.as_f64().unwrap();
        assert!(
            is_near(found, share, draws, ours),
            "{what}: {found}, simulated {share}"
        );
    };
    near("pass", certainty.award.unwrap().pass, &simulated["pass"]);
    for section in &certainty.sections {
        near(
            &section.section,
            section.probability,
            &simulated["minima"][&section.section],
        );
    }
    let of_marks = |list: &Value, marks: f64| {
        let pairs = list.as_array().unwrap().iter();
        let mut same = pairs.filter(|pair| (pair[0].as_f64().unwrap() - marks).abs() < 1e-6);
        same.next().map_or(Value::from(0.0), |pair| pair[1].clone())
    };
    for chance in &certainty.total {
        let share = of_marks(&simulated["total"], chance.marks.0.to_f64());
        near(
            &format!("total {}", chance.marks),
            chance.probability,
            &share,
        );
    }
    let criteria = simulated["criteria"].as_object().unwrap();
    for (entry, list) in criteria {
        let found = certainty.criteria.iter().find(|one| one.entry == *entry);
        let found = found.unwrap_or_else(|| panic!("{entry} is not weighed"));
        for chance in &found.chances {
            let share = of_marks(list, chance.marks.0.to_f64());
            near(
                &format!("{entry} {}", chance.marks),
                chance.probability,
                &share,
            );
        }
    }
    let mean = simulated["mean"].as_f64().unwrap();
    let deviation = simulated["deviation"].as_f64().unwrap();
    let error = 4.0 * deviation * (1.0 / draws + 1.0 / ours).sqrt();
    assert!(
        (certainty.expected - mean).abs() < error,
        "mean {} for {mean}",
        certainty.expected
    );
    assert!(
        (certainty.deviation - deviation).abs() < error,
        "{} for {deviation}",
        certainty.deviation
    );
}

#[test]
fn the_bar_shoe_comes_out_as_simulated() {
    let text = shipped()
        .iter()
        .find(|one| one.id == "straight-bar-shoe")
        .unwrap();
    let rubric = read(text.text);
    let certainty = weighed(&rubric, include_str!("../../data/conformity/bar-shoe.json"));
    assert_eq!(certainty.method, Method::Quadrature);
    compare(
        &certainty,
        include_str!("../../data/conformity/bar-shoe.simulated.json"),
    );
}

#[test]
fn criteria_that_share_a_caliper_and_a_target_come_out_as_simulated() {
    let rubric = read(include_str!("../../data/conformity/shared.toml"));
    let certainty = weighed(&rubric, include_str!("../../data/conformity/shared.json"));
    assert_eq!(certainty.method, Method::Quadrature);
    compare(
        &certainty,
        include_str!("../../data/conformity/shared.simulated.json"),
    );
}

/// Causes over two sections, cap, weight, minimum, warnings, a stop, per cent of the own
/// mean and the greatest distance from the mean.
#[test]
fn what_is_drawn_comes_out_as_simulated() {
    let rubric = read(include_str!("../../data/conformity/drawn.toml"));
    let certainty = weighed(&rubric, include_str!("../../data/conformity/drawn.json"));
    assert!(matches!(certainty.method, Method::Draws(_)));
    compare(
        &certainty,
        include_str!("../../data/conformity/drawn.simulated.json"),
    );
}
