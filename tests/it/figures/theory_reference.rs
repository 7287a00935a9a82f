//! Gauge, generalizability, items and pass marks held against `tests/data/theory.json`, which
//! `tests/reference/theory.py` wrote with SciPy, statsmodels, pingouin and matrices written out.

use std::sync::LazyLock;

use evenshod::figures::gauge::{
    Contribution, Crossed, Reference, combine, coverage, expected_range, linearity, range_divisor,
};
use evenshod::figures::general::{Analysis, Design, Planned, crossed_with_gaps};
use evenshod::figures::items::{alpha, conditional_errors, items, omega, pass_reliability};
use evenshod::figures::passmark::{Borderline, angoff, borderline_group, borderline_regression};
use evenshod::figures::{Interval, Resampling};
use serde::de::DeserializeOwned;
use serde_json::Value;

use super::{all_close, close};

static WRITTEN: LazyLock<Value> =
    LazyLock::new(|| serde_json::from_str(include_str!("../../data/theory.json")).unwrap());

/// The cases of one part.
fn cases(part: &str) -> &'static [Value] {
    let cases = WRITTEN[part].as_array().unwrap();
    assert!(!cases.is_empty(), "{part}");
    cases
}

fn read<T: DeserializeOwned>(case: &Value, key: &str) -> T {
    let value = case
        .get(key)
        .unwrap_or_else(|| panic!("no {key} in {case}"));
    serde_json::from_value(value.clone()).unwrap()
}

#[test]
fn ranges_of_normal_values() {
    for case in cases("ranges") {
        let size = read(case, "size");
        let found = expected_range(size);
        let found = [found.mean, found.deviation, range_divisor(size, 1)];
        let wanted = ["mean", "deviation", "divisor"].map(|key| read(case, key));
        all_close(&found, &wanted, 1e-8);
    }
}

#[test]
fn gauge_studies() {
    for case in cases("gauge") {
        let study = Crossed::of(&read::<Vec<Vec<Vec<f64>>>>(case, "readings")).unwrap();
        let kept = study.by_variance(1.0).unwrap();
        let Some(f) = read::<Option<f64>>(case, "f") else {
            assert_eq!(kept.interaction, None);
            continue;
        };
        let squares: Vec<f64> = kept.sources.iter().map(|source| source.squares).collect();
        all_close(&squares, &read::<Vec<f64>>(case, "squares"), 1e-9);
        let interaction = kept.interaction.unwrap();
        all_close(&[interaction.f, interaction.p], &[f, read(case, "p")], 1e-9);
        let parts = [
            kept.repeatability,
            kept.operator,
            kept.operator_by_part.unwrap(),
            kept.part,
        ];
        all_close(&parts, &read::<Vec<f64>>(case, "kept"), 1e-9);
        let pooled = study.by_variance(0.0).unwrap();
        assert!(pooled.interaction.unwrap().is_pooled);
        let parts = [pooled.repeatability, pooled.operator, pooled.part];
        all_close(&parts, &read::<Vec<f64>>(case, "pooled"), 1e-9);
    }
}

#[test]
fn uncertainties() {
    for case in cases("uncertainty") {
        let standard: Vec<f64> = read(case, "standard");
        let freedom: Vec<f64> = read(case, "freedom");
        let parts = standard.iter().zip(&freedom);
        let parts = parts.map(|(standard, freedom)| Contribution {
            standard: *standard,
            freedom: *freedom,
        });
        let found = combine(&parts.collect::<Vec<_>>()).unwrap();
        all_close(
            &[found.standard, found.freedom],
            &[read(case, "u"), read(case, "nu")],
            1e-9,
        );
        // One contribution alone has exactly its degrees of freedom, but for rounding.
        let whole = found.freedom + 1e-12;
        close(
            coverage(whole, read(case, "level")).unwrap(),
            read(case, "k"),
            1e-9,
        );
    }
}

#[test]
fn lines_of_bias() {
    for case in cases("linearity") {
        let pieces: Vec<(f64, Vec<f64>)> = read(case, "pieces");
        let pieces = pieces
            .into_iter()
            .map(|(value, readings)| Reference { value, readings });
        let found = linearity(&pieces.collect::<Vec<_>>(), 0.9);
        let Some(wanted) = read::<Option<Vec<f64>>>(case, "line") else {
            assert!(found.is_err());
            continue;
        };
        let found = found.unwrap();
        let line = found.line;
        let r_squared = line.r_squared.unwrap();
        let numbers = [line.slope, line.intercept, line.residual, r_squared];
        all_close(&numbers, &wanted, 1e-9);
        let ends = |interval: Interval| [interval.low, interval.high];
        all_close(&ends(found.slope), &read::<Vec<f64>>(case, "slope"), 1e-9);
        all_close(
            &ends(found.at_middle),
            &read::<Vec<f64>>(case, "middle"),
            1e-9,
        );
    }
}

#[test]
fn balanced_designs() {
    for case in cases("general") {
        let shape: Vec<usize> = read(case, "shape");
        let kind: String = read(case, "kind");
        let (design, letters) = match kind.as_str() {
            "p x i" => (Design::crossed(&[('p', shape[0]), ('i', shape[1])]), "i"),
            "p x r x i" => {
                let facets = [('p', shape[0]), ('r', shape[1]), ('i', shape[2])];
                (Design::crossed(&facets), "ri")
            }
            "p x (r:t)" => (
                Design::raters_within_tasks(shape[0], shape[1], shape[2]),
                "tr",
            ),
            _ => (Design::raters_within_persons(shape[0], shape[1]), "r"),
        };
        let marks: Vec<f64> = read(case, "marks");
        let analysis = Analysis::of(&design.unwrap(), &marks).unwrap();
        let squares: Vec<f64> = analysis
            .sources
            .iter()
            .map(|source| source.squares)
            .collect();
        all_close(&squares, &read::<Vec<f64>>(case, "squares"), 1e-9);
        let components = analysis.components();
        let estimates: Vec<f64> = components.parts.iter().map(|part| part.estimate).collect();
        all_close(&estimates, &read::<Vec<f64>>(case, "components"), 1e-9);
        let plan: Vec<usize> = read(case, "plan");
        let plan = letters.chars().zip(plan).map(|(letter, levels)| Planned {
            letter,
            levels,
            is_fixed: false,
        });
        let found = components.decide('p', &plan.collect::<Vec<_>>());
        if let Some(wanted) = read::<Option<Vec<f64>>>(case, "decision") {
            let found = found.unwrap();
            let errors = [found.relative_error, found.absolute_error];
            all_close(&errors, &wanted[..2], 1e-9);
            all_close(&[found.g, found.phi], &wanted[2..], 1e-9);
        } else {
            assert!(found.is_err());
        }
    }
}

/// Restricted maximum likelihood gives the estimates of the analysis of variance where the
/// design is balanced and none is negative (Searle, Casella and McCulloch 1992, 4.8).
#[test]
fn restricted_maximum_likelihood_agrees() {
    for case in cases("restricted") {
        let marks: Vec<Vec<f64>> = read(case, "marks");
        let design = Design::crossed(&[('p', marks.len()), ('i', marks[0].len())]).unwrap();
        let components = Analysis::of(&design, &marks.concat()).unwrap().components();
        let estimates: Vec<f64> = components.parts.iter().map(|part| part.estimate).collect();
        all_close(&estimates, &read::<Vec<f64>>(case, "components"), 1e-4);
    }
}

#[test]
fn persons_by_items_with_gaps() {
    for case in cases("gaps") {
        let found = crossed_with_gaps(&read::<Vec<Vec<Option<f64>>>>(case, "rows"));
        if let Some(wanted) = read::<Option<Vec<f64>>>(case, "components") {
            let found = found.unwrap();
            let estimates: Vec<f64> = found.parts.iter().map(|part| part.estimate).collect();
            all_close(&estimates, &wanted, 1e-9);
        } else {
            assert!(found.is_err());
        }
    }
}

/// The ends of alpha's interval are recomputed with scipy.stats.f; pingouin's, rounded to three
/// digits, are held against them in the script.
#[test]
fn items_among_one_another() {
    for case in cases("items") {
        let marks: Vec<Vec<f64>> = read(case, "marks");
        let found = alpha(&marks, 0.95);
        if let Some(wanted) = read::<Option<Vec<f64>>>(case, "alpha") {
            let found = found.unwrap();
            let numbers = [found.alpha, found.interval.low, found.interval.high];
            all_close(&numbers, &wanted, 1e-9);
        } else {
            assert!(found.is_err());
        }
        let most = vec![10.0; marks[0].len()];
        let with_rest: Vec<Option<f64>> = read(case, "with_rest");
        let without: Vec<Option<f64>> = read(case, "without");
        for (at, item) in items(&marks, &most).unwrap().into_iter().enumerate() {
            for (found, wanted) in [
                (item.with_rest, with_rest[at]),
                (item.alpha_without, without[at]),
            ] {
                assert_eq!(found.is_ok(), wanted.is_some(), "{marks:?}");
                if let (Ok(found), Some(wanted)) = (found, wanted) {
                    close(found, wanted, 1e-9);
                }
            }
        }
        let errors = conditional_errors(&marks).unwrap();
        all_close(&errors, &read::<Vec<f64>>(case, "errors"), 1e-9);
    }
}

#[test]
fn fits_of_one_factor() {
    let mut fits = 0;
    for case in cases("items") {
        let Some(wanted) = read::<Option<f64>>(case, "omega") else {
            continue;
        };
        let found = omega(&read::<Vec<Vec<f64>>>(case, "marks")).unwrap();
        close(found.omega, wanted, 1e-4);
        all_close(&found.loadings, &read::<Vec<f64>>(case, "loadings"), 1e-4);
        fits += 1;
    }
    assert!(fits >= 8, "{fits}");
}

#[test]
fn reliability_of_a_pass() {
    for case in cases("passing") {
        let [mean, deviation, reliability, pass, step] = read(case, "given");
        let found = pass_reliability(mean, deviation, reliability, pass, step).unwrap();
        close(found.consistency, read(case, "consistency"), 1e-9);
        let wrong = [found.false_passes, found.false_fails];
        all_close(&wrong, &read::<Vec<f64>>(case, "wrong"), 1e-9);
        if let Some(kappa) = read::<Option<f64>>(case, "kappa") {
            close(found.kappa.unwrap(), kappa, 1e-6);
        }
    }
}

/// Each end lies where the other program's draws have their share of values, four Monte Carlo
/// standard errors of both programs' draws to either side.
#[track_caller]
fn within(interval: Interval, case: &Value, key: &str) {
    let bands: [[f64; 2]; 2] = read(case, key);
    for (end, [from, to]) in [interval.low, interval.high].into_iter().zip(bands) {
        let rounding = 1e-9 * end.abs();
        let fits = from - rounding <= end && end <= to + rounding;
        assert!(fits, "{end} outside {from} to {to}");
    }
}

#[test]
fn cuts() {
    let resampling = Resampling {
        seed: 5,
        draws: 2000,
        level: 0.9,
    };
    for case in cases("passmarks") {
        let (totals, ratings): (Vec<f64>, Vec<f64>) = (read(case, "totals"), read(case, "ratings"));
        let pieces = Borderline {
            totals: &totals,
            ratings: &ratings,
            borderline: read(case, "borderline"),
        };
        let found = borderline_regression(pieces, resampling).unwrap();
        let line = found.line;
        let numbers = [line.slope, line.intercept, found.cut, found.standard_error];
        all_close(&numbers, &read::<Vec<f64>>(case, "regression"), 1e-9);
        within(found.spread.interval, case, "regression_bands");
        let found = borderline_group(pieces, resampling);
        if let Some(wanted) = read::<Option<Vec<f64>>>(case, "group") {
            let found = found.unwrap();
            all_close(&[found.mean, found.median], &wanted, 1e-12);
            within(found.mean_spread.interval, case, "mean_bands");
            within(found.median_spread.interval, case, "median_bands");
        } else {
            assert!(found.is_err());
        }
        let shares: Vec<Vec<f64>> = read(case, "shares");
        let found = angoff(&shares, &read::<Vec<f64>>(case, "most"), resampling).unwrap();
        let numbers = [found.cut, found.deviation, found.standard_error];
        all_close(&numbers, &read::<Vec<f64>>(case, "angoff"), 1e-9);
        within(found.spread.interval, case, "angoff_bands");
    }
}
