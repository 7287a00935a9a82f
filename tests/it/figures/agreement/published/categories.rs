//! Figures of categories.

use evenshod::figures::Resampling;
use evenshod::figures::agreement::{Ratings, Weights, bootstrap, cohen_kappa, fleiss_kappa};

use super::super::near;
use super::within;

/// The scores of two raters that a table of counts stands for, a row to each of the first's.
fn counted(table: &[&[usize]]) -> (Vec<f64>, Vec<f64>, Vec<f64>) {
    let (mut first, mut second) = (Vec::new(), Vec::new());
    for (row, one) in table.iter().zip(1_u32..) {
        for (count, other) in row.iter().copied().zip(1_u32..) {
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
    let draws = Resampling {
        draws: 400,
        seed: 1,
        level: 0.95,
    };
    let drawn = bootstrap(&ratings, &draws, |drawn| Ok(fleiss_kappa(drawn)?.value)).unwrap();
    assert!(drawn.interval.low < kappa.value && kappa.value < drawn.interval.high);
}
