use evenshod::demo::{STALLS, SURGES};

use super::sample::{demo, mean, percents};

/// Means of the first four pieces, of the next four and of the last four.
fn stretches(learner: &str) -> [f64; 3] {
    let all = percents(demo(), learner);
    assert_eq!(all.len(), 14, "{learner} has no draft");
    [
        mean(&all[..4]),
        mean(&all[4..8]),
        mean(&all[all.len() - 4..]),
    ]
}

/// Means of the first and of the last third.
fn ends(learner: &str) -> (f64, f64) {
    let all = percents(demo(), learner);
    let third = all.len() / 3;
    (mean(&all[..third]), mean(&all[all.len() - third..]))
}

#[test]
fn learners_get_better_on_the_whole() {
    let mut better = 0;
    for learner in demo().learners() {
        let (first, last) = ends(&learner.name);
        assert!((25.0..90.0).contains(&first), "{} {first}", learner.name);
        assert!((50.0..100.0).contains(&last), "{} {last}", learner.name);
        better += u32::from(last - first > 8.0);
    }
    assert!(better >= 9, "{better} of 12 gain more than eight per cent");
}

#[test]
fn one_learner_stalls() {
    let [start, middle, end] = stretches(STALLS);
    assert!((end - middle).abs() < 15.0, "{start} {middle} {end}");
    let others = demo().learners().filter(|learner| learner.name != STALLS);
    let others: Vec<f64> = others.map(|learner| ends(&learner.name).1).collect();
    assert!(mean(&others) - end > 8.0, "{end} {others:?}");
}

#[test]
fn one_learner_surges_after_a_plateau() {
    let [start, middle, end] = stretches(SURGES);
    assert!((middle - start).abs() < 17.0, "{start} {middle} {end}");
    assert!(end - middle > 20.0, "{start} {middle} {end}");
}
