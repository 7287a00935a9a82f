//! Worked examples of papers and books. Where a value was not seen in its source but in a text
//! that quotes it, or is from memory, the test says so.

use evenshod::figures::agreement::{
    Draws, LimitsAsked, Metric, Model, Ratings, Repeated, Score, Weights, alpha, bland_altman,
    bland_altman_constant, bland_altman_varying, bootstrap, cohen_kappa, components, concordance,
    fleiss_kappa, icc, kendall_w, mean_squares,
};

use super::{near, whole};

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

#[track_caller]
fn within(what: &str, found: f64, printed: f64, half_a_digit: f64) {
    let off = (found - printed).abs();
    assert!(off <= half_a_digit, "{what}: {found}, printed {printed}");
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

/// The scores of two raters that a table of counts stands for, a row to each of the first's.
fn counted(table: &[&[usize]]) -> (Vec<f64>, Vec<f64>, Vec<f64>) {
    let (mut first, mut second) = (Vec::new(), Vec::new());
    let numbered = |list: &[usize]| list.to_vec().into_iter().zip(1_u32..);
    for (row, one) in table.iter().zip(1_u32..) {
        for (count, other) in numbered(row) {
            first.extend(vec![f64::from(one); count]);
            second.extend(vec![f64::from(other); count]);
        }
    }
    let scale = (1_u32..).take(table.len()).map(f64::from).collect();
    (first, second, scale)
}

/// A printout of SAS PROC FREQ that the tests of statsmodels quote
/// (statsmodels/stats/tests/test_inter_rater.py).
#[test]
fn kappa_with_its_errors_as_sas_prints_it() {
    let (first, second, scale) = counted(&[&[0, 4, 1], &[0, 8, 0], &[0, 1, 5]]);
    let printed = [
        (
            Weights::Equal,
            [0.4842, 0.1380, 0.2137, 0.7547, 0.1484, 3.2626],
        ),
        (
            Weights::Linear,
            [0.4701, 0.1457, 0.1845, 0.7558, 0.1426, 3.2971],
        ),
    ];
    for (weights, printed) in printed {
        let kappa = cohen_kappa(&first, &second, &scale, weights, 0.95).unwrap();
        let z = kappa.test.unwrap().statistic;
        let interval = kappa.interval;
        let found = [
            kappa.value,
            kappa.error,
            interval.low,
            interval.high,
            kappa.error_null,
            z,
        ];
        for (found, printed) in found.iter().zip(printed) {
            within(&format!("{weights:?}"), *found, printed, 6e-5);
        }
    }
}

/// Fleiss, Cohen and Everitt (1969), n = 200; kappa from memory as printed, its weighted form
/// and the errors as statsmodels 0.15 gives them.
#[test]
fn kappa_with_weights_of_ones_own() {
    let (first, second, scale) = counted(&[&[106, 10, 4], &[22, 28, 10], &[2, 12, 6]]);
    let (near_by, nearer) = (4.0 / 9.0, 6.0 / 9.0);
    let own = [
        vec![1.0, 0.0, near_by],
        vec![0.0, 1.0, nearer],
        vec![near_by, nearer, 1.0],
    ];
    let plain = cohen_kappa(&first, &second, &scale, Weights::Equal, 0.95).unwrap();
    within("kappa", plain.value, 0.429, 0.0005);
    near("its error", plain.error, 0.053_711_004_87, 1e-9);
    let weighted = cohen_kappa(&first, &second, &scale, Weights::Own(&own), 0.95).unwrap();
    near("weighted", weighted.value, 0.507_060_333_8, 1e-9);
    near("its error", weighted.error, 0.056_994_150_15, 1e-9);
}

/// Cohen (1968), n = 200, weights of disagreement 1, 3 and 6; both from memory as printed.
#[test]
fn kappa_with_weights_of_disagreement() {
    let (first, second, scale) = counted(&[&[88, 14, 18], &[10, 40, 10], &[2, 6, 12]]);
    let agreement = |lack: f64| 1.0 - lack / 6.0;
    let rows = [[0.0, 1.0, 3.0], [1.0, 0.0, 6.0], [3.0, 6.0, 0.0]];
    let own: Vec<Vec<f64>> = rows.iter().map(|row| row.map(agreement).to_vec()).collect();
    let plain = cohen_kappa(&first, &second, &scale, Weights::Equal, 0.95).unwrap();
    within("kappa", plain.value, 0.492, 0.0005);
    let weighted = cohen_kappa(&first, &second, &scale, Weights::Own(&own), 0.95).unwrap();
    within("weighted", weighted.value, 0.348, 0.0005);
}

/// The anxiety scores of the R package irr, raters 2 and 3, as the tests of statsmodels quote
/// its output. irr drops level 5, which neither used, before it weights; scikit-learn 1.9 gives
/// the other two with all six levels.
#[test]
fn an_unused_category_counts_by_its_place() {
    let second = [3, 6, 4, 6, 2, 4, 2, 4, 3, 3, 2, 3, 3, 3, 2, 2, 1, 3, 3, 4].map(f64::from);
    let third = [2, 1, 4, 4, 3, 2, 1, 6, 1, 1, 1, 2, 3, 3, 1, 1, 3, 3, 2, 2].map(f64::from);
    let used = [1.0, 2.0, 3.0, 4.0, 6.0];
    let all = [1.0, 2.0, 3.0, 4.0, 5.0, 6.0];
    let value = |scale: &[f64], weights| {
        cohen_kappa(&second, &third, scale, weights, 0.95)
            .unwrap()
            .value
    };
    within("equal", value(&used, Weights::Equal), -0.006_289_308, 5e-9);
    within("linear", value(&used, Weights::Linear), 0.145_907_5, 5e-8);
    within(
        "quadratic",
        value(&used, Weights::Quadratic),
        0.252_032_5,
        5e-8,
    );
    near(
        "equal, all",
        value(&all, Weights::Equal),
        value(&used, Weights::Equal),
        1e-12,
    );
    near(
        "linear, all",
        value(&all, Weights::Linear),
        0.126_213_592_2,
        1e-9,
    );
    near(
        "quadratic, all",
        value(&all, Weights::Quadratic),
        0.229_797_979_8,
        1e-9,
    );
}

/// Fleiss (1971), table 1: 30 patients by 6 psychiatrists; the figure and z of the R package irr
/// as the tests of statsmodels quote them, the categories from memory as printed.
#[test]
fn diagnoses_of_fleiss() {
    let patients = "444444 222555 233335 555555 222444 113333 333355 113334 114444 555555 144444 \
                    124444 222333 144444 224445 333335 111455 111112 224444 133555 555555 244444 \
                    224555 114444 144445 222224 111155 224444 133333 555555";
    let rows = patients.split_whitespace().map(|patient| {
        let codes = patient.bytes().map(|code| f64::from(code - b'0'));
        codes.collect::<Vec<_>>()
    });
    let ratings = Ratings::whole(&rows.collect::<Vec<_>>()).unwrap();
    let kappa = fleiss_kappa(&ratings).unwrap();
    within("kappa", kappa.value, 0.430_244_5, 5e-8);
    within("z", kappa.test.clone().unwrap().statistic, 17.651_83, 5e-6);
    let printed = [0.245, 0.245, 0.520, 0.471, 0.566];
    for (category, printed) in kappa.categories.iter().zip(printed) {
        within("category", category.value, printed, 0.0005);
    }
    // The value lies in its interval by drawing, which theory gives no other way here.
    let draws = Draws {
        count: 400,
        seed: 1,
        level: 0.95,
    };
    let drawn = bootstrap(&ratings, &draws, |drawn| Ok(fleiss_kappa(drawn)?.value)).unwrap();
    assert!(drawn.interval.low < kappa.value && kappa.value < drawn.interval.high);
}

/// Krippendorff (2019), 12.3, from memory as printed: four observers, twelve units, of which
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

const WRIGHT: [f64; 17] = [
    494.0, 395.0, 516.0, 434.0, 476.0, 557.0, 413.0, 442.0, 650.0, 433.0, 417.0, 656.0, 267.0,
    478.0, 178.0, 423.0, 427.0,
];
const MINI: [f64; 17] = [
    512.0, 430.0, 520.0, 428.0, 500.0, 600.0, 364.0, 380.0, 658.0, 445.0, 432.0, 626.0, 260.0,
    477.0, 259.0, 350.0, 451.0,
];

/// Bland and Altman (1986): peak flow by two meters. The paper rounds 1.96 to 2 and gives
/// limits of -79.7 and 75.5, from the rounded mean -2.1 and deviation 38.8; its intervals of
/// limits (-114.3 to -45.1, 40.9 to 110.1, quoted) go by the error `sqrt(3 s^2 / n)`, which is
/// a little under the full one used here.
#[test]
fn peak_flow_of_bland_and_altman() {
    let limits = bland_altman(&WRIGHT, &MINI, LimitsAsked::default()).unwrap();
    within("bias", limits.bias.value, -2.1, 0.05);
    within("deviation", limits.deviation, 38.8, 0.05);
    near("lower", limits.low.value, -78.095_905_47, 1e-9);
    near("upper", limits.high.value, 73.860_611_35, 1e-9);
    within("bias from", limits.bias.interval.low, -22.0, 0.1);
    within("bias to", limits.bias.interval.high, 17.8, 0.1);
    near(
        "error of a limit",
        limits.low.error,
        16.394_905_793_65,
        1e-9,
    );
    let rough = 38.765_129_87 * (3.0_f64 / 17.0).sqrt();
    assert!(rough < limits.low.error && limits.low.error < 1.01 * rough);
    let two = LimitsAsked {
        coverage: 0.954_499_736_103_641_6,
        ..LimitsAsked::default()
    };
    let limits = bland_altman(&WRIGHT, &MINI, two).unwrap();
    within("lower by 2", limits.low.value, -79.7, 0.1);
    within("upper by 2", limits.high.value, 75.5, 0.1);
    // Lin (1989) on the same data, recomputed: near the correlation of 0.943.
    let lin = concordance(&WRIGHT, &MINI, 0.95).unwrap();
    near("concordance", lin.value, 0.942_742_431_4, 1e-9);
    near("correlation", lin.correlation, 0.943_279_446_9, 1e-9);
}

/// Cardiac output of 12 subjects by two methods, three to six times each: Bland and Altman
/// (1999), table 4; values as a text on both papers quotes them.
fn cardiac_output() -> Vec<Repeated> {
    let subjects: [&[(f64, f64)]; 12] = [
        &[
            (7.83, 6.57),
            (7.42, 5.62),
            (7.89, 6.9),
            (7.12, 6.57),
            (7.88, 6.35),
        ],
        &[(6.16, 4.06), (7.26, 4.29), (6.71, 4.26), (6.54, 4.09)],
        &[
            (4.75, 4.71),
            (5.24, 5.5),
            (4.86, 5.08),
            (4.78, 5.02),
            (6.05, 6.01),
            (5.42, 5.67),
        ],
        &[
            (4.21, 4.14),
            (3.61, 4.2),
            (3.72, 4.61),
            (3.87, 4.68),
            (3.92, 5.04),
        ],
        &[
            (3.13, 3.03),
            (2.98, 2.86),
            (2.85, 2.77),
            (3.17, 2.46),
            (3.09, 2.32),
            (3.12, 2.43),
        ],
        &[(5.92, 5.9), (6.42, 5.81), (5.92, 5.7), (6.27, 5.76)],
        &[(7.13, 5.09), (6.62, 4.63), (6.58, 4.61), (6.93, 5.09)],
        &[
            (4.54, 4.72),
            (4.81, 4.61),
            (5.11, 4.36),
            (5.29, 4.2),
            (5.39, 4.36),
            (5.57, 4.2),
        ],
        &[(4.48, 3.17), (4.92, 3.12), (3.97, 2.96)],
        &[
            (4.22, 4.35),
            (4.65, 4.62),
            (4.74, 3.16),
            (4.44, 3.53),
            (4.5, 3.53),
        ],
        &[
            (6.78, 7.2),
            (6.07, 6.09),
            (6.52, 7.0),
            (6.42, 7.1),
            (6.41, 7.4),
            (5.76, 6.8),
        ],
        &[
            (5.06, 4.5),
            (4.72, 4.2),
            (4.9, 3.8),
            (4.8, 3.8),
            (4.9, 4.2),
            (5.1, 4.5),
        ],
    ];
    let subjects = subjects.into_iter().map(|pairs| {
        let (first, second) = pairs.iter().copied().unzip();
        Repeated { first, second }
    });
    subjects.collect()
}

/// Bland and Altman (1999), 5.2: bias 0.7092, deviation 1.0517, limits -1.3521 and 2.7705. The
/// data give a deviation of 1.05185; the paper's comes from components rounded before.
#[test]
fn cardiac_output_that_stays_as_it_is() {
    let limits = bland_altman_constant(&cardiac_output(), LimitsAsked::default()).unwrap();
    within("bias", limits.bias.value, 0.7092, 5e-5);
    within("deviation", limits.deviation, 1.0517, 2e-4);
    within("lower", limits.low.value, -1.3521, 4e-4);
    within("upper", limits.high.value, 2.7705, 4e-4);
}

/// Bland and Altman (2007), 3, which corrects the paper of 1999: bias 0.6021667, deviation
/// 0.99062408, limits -1.3394565 and 2.5437899, by 1.96 instead of the normal quantile.
#[test]
fn cardiac_output_that_changes() {
    let limits = bland_altman_varying(&cardiac_output(), LimitsAsked::default()).unwrap();
    within("bias", limits.bias.value, 0.602_166_7, 5e-8);
    within("deviation", limits.deviation, 0.990_624_08, 5e-8);
    let by_196 = |sign: f64| limits.bias.value + sign * 1.96 * limits.deviation;
    within("lower", by_196(-1.0), -1.339_456_5, 5e-7);
    within("upper", by_196(1.0), 2.543_789_9, 5e-7);
    within("lower", limits.low.value, -1.339_456_5, 4e-5);
}

/// One score each: both forms come down to the simple one, or lack what they rest on.
#[test]
fn single_scores_are_a_case_of_repeated_ones() {
    let targets = WRIGHT.iter().zip(&MINI).map(|(first, second)| Repeated {
        first: vec![*first],
        second: vec![*second],
    });
    let targets: Vec<Repeated> = targets.collect();
    let asked = LimitsAsked::default();
    let simple = bland_altman(&WRIGHT, &MINI, asked).unwrap();
    let constant = bland_altman_constant(&targets, asked).unwrap();
    near("lower", constant.low.value, simple.low.value, 1e-12);
    near("its error", constant.low.error, simple.low.error, 1e-12);
    assert!(bland_altman_varying(&targets, asked).is_err());
}
