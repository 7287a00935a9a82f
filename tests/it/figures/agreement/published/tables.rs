//! Figures of whole tables.

use evenshod::figures::agreement::{
    Metric, Model, Ratings, Score, alpha, components, icc, kendall_w, mean_squares,
};

use super::super::{near, whole};
use super::within;

/// Shrout and Fleiss (1979), table 2.
fn judges() -> Ratings {
    whole(&[
        &[9.0, 2.0, 5.0, 8.0],
        &[6.0, 1.0, 3.0, 2.0],
        &[8.0, 4.0, 6.0, 8.0],
        &[7.0, 1.0, 2.0, 6.0],
        &[10.0, 5.0, 6.0, 9.0],
        &[6.0, 2.0, 4.0, 7.0],
    ])
}

/// Values of Shrout and Fleiss (1979), tables 3 and 4, mean squares from memory; the intervals
/// as texts quote them from McGraw and Wong's (1996) method on these data.
#[test]
fn six_judged_targets_of_shrout_and_fleiss() {
    let judges = judges();
    let squares = mean_squares(&judges).unwrap();
    within("between", squares.between, 11.24, 0.005);
    within("within", squares.within, 6.26, 0.005);
    within("judges", squares.judges, 32.49, 0.005);
    within("error", squares.error, 1.02, 0.005);
    let forms = [
        (Model::OneWay, Score::Single, 0.17),
        (Model::Agreement, Score::Single, 0.29),
        (Model::Consistency, Score::Single, 0.71),
        (Model::OneWay, Score::Mean, 0.44),
        (Model::Agreement, Score::Mean, 0.62),
        (Model::Consistency, Score::Mean, 0.91),
    ];
    for (model, score, printed) in forms {
        let found = icc(&judges, model, score, 0.95).unwrap();
        within(&format!("{model:?} {score:?}"), found.value, printed, 0.005);
    }
    let single = icc(&judges, Model::Agreement, Score::Single, 0.95).unwrap();
    let interval = single.interval.unwrap();
    within("low", interval.low, 0.019, 0.0005);
    within("high", interval.high, 0.761, 0.0005);
    let mean = icc(&judges, Model::Agreement, Score::Mean, 0.95).unwrap();
    let interval = mean.interval.unwrap();
    within("low", interval.low, 0.071, 0.0005);
    within("high", interval.high, 0.927, 0.0005);
    let test = single.test.unwrap();
    within("F", test.statistic, 11.03, 0.005);
    assert_eq!((test.df, test.df_error), (5.0, 15.0));
}

/// Searle, Casella and McCulloch (1992): without gaps all methods are the analysis of variance.
#[test]
fn components_without_gaps_are_those_of_the_mean_squares() {
    let judges = judges();
    let squares = mean_squares(&judges).unwrap();
    let parts = components(&judges).unwrap();
    near(
        "targets",
        parts.targets,
        (squares.between - squares.error) / 4.0,
        1e-12,
    );
    near(
        "raters",
        parts.raters,
        (squares.judges - squares.error) / 6.0,
        1e-12,
    );
    near("residual", parts.residual, squares.error, 1e-12);
    let single = icc(&judges, Model::Agreement, Score::Single, 0.95).unwrap();
    near(
        "agreement",
        parts.agreement(1.0).unwrap(),
        single.value,
        1e-12,
    );
}

/// Krippendorff (2019), chapter 12, from memory as printed: four observers, twelve units, of which
/// the last has one value and does not count.
#[test]
fn four_observers_of_krippendorff() {
    let observers = [
        "123321412...",
        "1233224125.3",
        ".3332342251.",
        "12332441251.",
    ];
    let row = |unit: usize| {
        let codes = observers.iter().map(|codes| codes.as_bytes()[unit]);
        codes
            .map(|code| (code != b'.').then(|| f64::from(code - b'0')))
            .collect::<Vec<_>>()
    };
    let rows: Vec<_> = (0..12).map(row).collect();
    let all = Ratings::new(&rows).unwrap();
    let paired = Ratings::new(&rows[..11]).unwrap();
    let printed = [
        (Metric::Nominal, 0.743, 0.743_421_052_6),
        (Metric::Ordinal, 0.815, 0.815_387_503_8),
        (Metric::Interval, 0.849, 0.849_107_142_9),
        (Metric::Ratio, 0.797, 0.797_402_774_7),
    ];
    for (metric, printed, full) in printed {
        let found = alpha(&all, metric).unwrap();
        within(&format!("{metric:?}"), found, printed, 0.0005);
        near(&format!("{metric:?}"), found, full, 1e-9);
        near(
            "without the last",
            alpha(&paired, metric).unwrap(),
            found,
            1e-12,
        );
    }
}

/// Zar, Biostatistical Analysis, 5th edition, example 20.5: wing, tail and bill of 12 birds.
/// Rank sums and the corrected W of 0.924 follow from the data printed there.
#[test]
fn birds_of_zar() {
    let columns = [
        [
            10.4, 10.8, 11.1, 10.2, 10.3, 10.2, 10.7, 10.5, 10.8, 11.2, 10.6, 11.4,
        ],
        [7.4, 7.6, 7.9, 7.2, 7.4, 7.1, 7.4, 7.2, 7.8, 7.7, 7.8, 8.3],
        [
            17.0, 17.0, 20.0, 14.5, 15.5, 13.0, 19.5, 16.0, 21.0, 20.0, 18.0, 22.0,
        ],
    ];
    let rows = (0..12).map(|bird| columns.iter().map(|column| column[bird]).collect());
    let w = kendall_w(&Ratings::whole(&rows.collect::<Vec<Vec<f64>>>()).unwrap()).unwrap();
    // S = 1175.5 and T = 60: 12 S / (9 (1728 - 12) - 3 * 60).
    near("W", w.value, 12.0 * 1175.5 / 15_264.0, 1e-12);
    near("chi-squared", w.test.statistic, 30.496_462_26, 1e-9);
    near("p", w.test.p, 0.001_323_545_917, 1e-9);
    assert_eq!(w.test.df, 11.0);
}
