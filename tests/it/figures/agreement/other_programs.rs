//! Each figure of some 180 seeded tables as other programs give it, or none where it does not
//! exist: `tests/reference/agreement.py` says which program gives which.

use evenshod::figures::agreement::{
    Estimate, Icc, Limits, LimitsAsked, Metric, Model, Ratings, Repeated, Score, Weights, alpha,
    alpha_bootstrap, bland_altman, bland_altman_constant, bland_altman_varying, cohen_kappa,
    components, concordance, fleiss_kappa, icc, icc_bootstrap, kendall_w,
};
use evenshod::figures::{Interval, Lacking, Resampling};
use serde_json::Value;

use super::near;

const CLOSED: f64 = 1e-9;
const LEVEL: f64 = 0.95;

/// Each case of one kind, with the number by which it can be found.
fn cases(kind: &str) -> Vec<(usize, Value)> {
    let text = include_str!("../../../data/agreement.json");
    let all: Value = serde_json::from_str(text).unwrap();
    let cases = all[kind].as_array().unwrap().clone();
    assert!(!cases.is_empty());
    cases.into_iter().enumerate().collect()
}

fn numbers(list: &Value) -> Vec<f64> {
    let list = list.as_array().unwrap().iter();
    list.map(|number| number.as_f64().unwrap()).collect()
}

fn ratings(case: &Value) -> Ratings {
    let rows = case["cells"].as_array().unwrap().iter();
    let rows: Vec<Vec<Option<f64>>> = rows
        .map(|row| row.as_array().unwrap().iter().map(Value::as_f64).collect())
        .collect();
    Ratings::new(&rows).unwrap()
}

/// The same numbers, or neither.
#[track_caller]
fn same(what: &str, found: Result<Vec<f64>, Lacking>, expected: &Value) {
    match (found, expected) {
        (Err(_), Value::Null) => {}
        (Ok(found), Value::Array(_)) => {
            let expected = numbers(expected);
            assert_eq!(found.len(), expected.len(), "{what}");
            for (at, (found, expected)) in found.iter().zip(&expected).enumerate() {
                near(&format!("{what}, number {at}"), *found, *expected, CLOSED);
            }
        }
        (Ok(found), Value::Number(expected)) => {
            near(what, found[0], expected.as_f64().unwrap(), CLOSED);
        }
        (found, expected) => panic!("{what}: {found:?}, expected {expected}"),
    }
}

fn ends(interval: Interval) -> Vec<f64> {
    vec![interval.low, interval.high]
}

const FORMS: [(&str, Model, Score); 6] = [
    ("1,1", Model::OneWay, Score::Single),
    ("2,1", Model::Agreement, Score::Single),
    ("3,1", Model::Consistency, Score::Single),
    ("1,k", Model::OneWay, Score::Mean),
    ("2,k", Model::Agreement, Score::Mean),
    ("3,k", Model::Consistency, Score::Mean),
];

#[test]
fn intraclass_correlations_are_those_of_pingouin() {
    let mut compared = 0;
    for (at, case) in cases("tables") {
        for (form, model, score) in FORMS {
            let what = format!("table {at}, {form}");
            let found = icc(&ratings(&case), model, score, LEVEL);
            let expected = &case["icc"];
            same(
                &what,
                found.clone().map(|found| vec![found.value]),
                &expected["values"][form],
            );
            let Ok(Icc { interval, test, .. }) = found else {
                continue;
            };
            let test = test.map(|test| vec![test.statistic, test.df, test.df_error, test.p]);
            let model = if model == Model::OneWay { "1" } else { "2" };
            same(&what, test, &expected["tests"][model]);
            // Where there is no error at all the papers' formulas divide by it; the limit is 1.
            if expected["intervals"][form].is_array() {
                same(&what, interval.map(ends), &expected["intervals"][form]);
                compared += 1;
            }
        }
    }
    assert!(compared > 500, "{compared} intervals");
}

#[test]
fn components_of_variance_are_those_of_dense_matrices() {
    for (at, case) in cases("tables") {
        let found = components(&ratings(&case));
        let parts = found
            .clone()
            .map(|found| vec![found.targets, found.raters, found.residual]);
        let what = format!("table {at}");
        same(&what, parts, &case["components"]["parts"]);
        let agreement = found.and_then(|found| found.agreement(1.0));
        same(
            &what,
            agreement.map(|one| vec![one]),
            &case["components"]["agreement"],
        );
    }
}

#[test]
fn alpha_is_that_of_krippendorff() {
    let metrics = [
        ("nominal", Metric::Nominal),
        ("ordinal", Metric::Ordinal),
        ("interval", Metric::Interval),
        ("ratio", Metric::Ratio),
    ];
    for (at, case) in cases("tables") {
        for (name, metric) in metrics {
            let found = alpha(&ratings(&case), metric).map(|alpha| vec![alpha]);
            same(&format!("table {at}, {name}"), found, &case["alpha"][name]);
        }
    }
}

#[test]
fn ranks_and_categories_are_those_of_scipy_and_statsmodels() {
    for (at, case) in cases("tables") {
        let ratings = ratings(&case);
        let kendall = kendall_w(&ratings);
        let kendall = kendall.map(|w| vec![w.value, w.test.statistic, w.test.p]);
        same(&format!("table {at}, W"), kendall, &case["kendall"]);
        let fleiss = fleiss_kappa(&ratings).map(|kappa| vec![kappa.value]);
        same(&format!("table {at}, Fleiss"), fleiss, &case["fleiss"]);
    }
}

#[test]
fn two_raters_are_compared_as_by_statsmodels() {
    let weights = [
        ("unweighted", Weights::Equal),
        ("linear", Weights::Linear),
        ("quadratic", Weights::Quadratic),
    ];
    let all = cases("tables").into_iter();
    for (at, case) in all.filter(|(_, case)| case.get("limits").is_some()) {
        let ratings = ratings(&case);
        let (first, second) = ratings.pairs().unwrap();
        let scale = match &case["scale"] {
            Value::Null => ratings.distinct(),
            scale => numbers(scale),
        };
        for (name, weights) in weights {
            let kappa = cohen_kappa(&first, &second, &scale, weights, LEVEL);
            let kappa = kappa.map(|kappa| vec![kappa.value, kappa.error, kappa.error_null]);
            // Where an error is 0 statsmodels takes the root of what rounding left.
            let expected = match &case["kappa"][name] {
                Value::Array(list) => {
                    let list = list.iter().map(|one| one.as_f64().unwrap());
                    list.map(|one| if one.abs() < 1e-7 { 0.0 } else { one })
                        .collect()
                }
                none => none.clone(),
            };
            same(&format!("table {at}, {name}"), kappa, &expected);
        }
        let limits = bland_altman(&first, &second, LimitsAsked::default());
        same(
            &format!("table {at}, limits"),
            limits.map(listed),
            &case["limits"],
        );
        let lin = concordance(&first, &second, LEVEL);
        let what = format!("table {at}, concordance");
        same(
            &what,
            lin.clone().map(|lin| vec![lin.value]),
            &case["concordance"]["value"],
        );
        let expected = &case["concordance"]["interval"];
        if let (Ok(lin), true) = (lin, expected.is_array()) {
            same(&what, lin.interval.map(ends), expected);
        }
    }
}

fn listed(limits: Limits) -> Vec<f64> {
    let ends = |one: Estimate| [one.interval.low, one.interval.high];
    let values = [
        limits.bias.value,
        limits.deviation,
        limits.low.value,
        limits.high.value,
    ];
    [
        &values[..],
        &ends(limits.bias),
        &ends(limits.low),
        &ends(limits.high),
    ]
    .concat()
}

#[test]
fn limits_of_repeated_scores_are_those_of_statsmodels_variances() {
    for (at, case) in cases("repeats") {
        let targets = case["targets"].as_array().unwrap().iter();
        let targets: Vec<Repeated> = targets
            .map(|target| Repeated {
                first: numbers(&target[0]),
                second: numbers(&target[1]),
            })
            .collect();
        let constant = bland_altman_constant(&targets, LimitsAsked::default());
        same(
            &format!("repeats {at}"),
            constant.map(listed),
            &case["constant"],
        );
        if case["varying"].is_array() {
            let varying = bland_altman_varying(&targets, LimitsAsked::default());
            same(
                &format!("repeats {at}"),
                varying.map(listed),
                &case["varying"],
            );
        }
    }
}

/// Within four standard errors from run to run, theirs being the mean of several runs.
#[test]
fn intervals_by_drawing_are_those_of_numpy() {
    for (at, case) in cases("drawn") {
        let draws = Resampling {
            draws: usize::try_from(case["draws"].as_u64().unwrap()).unwrap(),
            seed: 7,
            level: LEVEL,
        };
        let ratings = ratings(&case);
        let found = if case["figure"] == "icc" {
            icc_bootstrap(&ratings, Model::Agreement, Score::Single, &draws)
        } else {
            alpha_bootstrap(&ratings, Metric::Ordinal, &draws)
        };
        let (mean, error) = (numbers(&case["mean"]), numbers(&case["error"]));
        let more = (1.0 + 1.0 / case["times"].as_f64().unwrap()).sqrt();
        let found = ends(found.unwrap().interval);
        for ((found, mean), error) in found.iter().zip(&mean).zip(&error) {
            assert!(
                (found - mean).abs() <= 4.0 * error * more,
                "drawn {at}: {found}, {mean} give or take {error}"
            );
        }
    }
}
