//! What has no figure says why.

use evenshod::figures::agreement::{
    LimitsAsked, Metric, Model, Ratings, Repeated, Score, Weights, alpha, alpha_bootstrap,
    bland_altman, bland_altman_varying, cohen_kappa, components, concordance, fleiss_kappa, icc,
    icc_bootstrap, kendall_w,
};
use evenshod::figures::{Lacking, Resampling};

use super::whole;

#[test]
fn a_table_is_checked_when_it_is_made() {
    let too_few = |what| Lacking::TooFew {
        what,
        has: 0,
        needs: 1,
    };
    assert_eq!(Ratings::new(&[]), Err(too_few("targets")));
    assert_eq!(Ratings::new(&[vec![]]), Err(too_few("raters")));
    let ragged = Ratings::new(&[vec![Some(1.0)], vec![Some(1.0), None]]);
    assert!(matches!(ragged, Err(Lacking::Gaps(_))));
    let endless = Ratings::new(&[vec![Some(f64::INFINITY)]]);
    assert!(matches!(endless, Err(Lacking::NotANumber(_))));
    let fine = Ratings::new(&[vec![Some(1.0), None], vec![Some(-0.0), Some(0.0)]]).unwrap();
    assert_eq!((fine.targets(), fine.raters(), fine.missing()), (2, 2, 1));
    assert_eq!(fine.distinct(), [0.0, 1.0]);
    assert_eq!(fine.pairs(), Ok((vec![0.0], vec![0.0])));
}

#[test]
fn gaps_are_told_by_what_takes_no_gaps() {
    let gappy = Ratings::new(&[vec![Some(1.0), None], vec![Some(2.0), Some(3.0)]]).unwrap();
    let gaps = Lacking::Gaps("the table of scores");
    let one = icc(&gappy, Model::OneWay, Score::Single, 0.95);
    assert_eq!(one.unwrap_err(), gaps);
    assert_eq!(kendall_w(&gappy).unwrap_err(), gaps);
    assert_eq!(fleiss_kappa(&gappy).unwrap_err(), gaps);
    let freedom = components(&gappy).unwrap_err().to_string();
    assert_eq!(
        freedom,
        "degrees of freedom of the residual: 0, and it takes 1"
    );
}

#[test]
fn scores_that_are_all_alike_have_no_figure() {
    // Their mean is not 0.1 but the number next to it.
    let same = Ratings::whole(&vec![vec![0.1; 3]; 4]).unwrap();
    let no_spread = |fault: Lacking| matches!(fault, Lacking::NoSpread(_));
    let one = icc(&same, Model::Agreement, Score::Single, 0.95);
    assert!(no_spread(one.unwrap_err()));
    assert!(no_spread(components(&same).unwrap_err()));
    assert!(no_spread(kendall_w(&same).unwrap_err()));
    assert!(no_spread(fleiss_kappa(&same).unwrap_err()));
    for metric in [
        Metric::Nominal,
        Metric::Ordinal,
        Metric::Interval,
        Metric::Ratio,
    ] {
        assert!(no_spread(alpha(&same, metric).unwrap_err()));
    }
    let flat = [0.1; 4];
    let kappa = cohen_kappa(&flat, &flat, &[0.1, 0.2], Weights::Linear, 0.95);
    assert!(no_spread(kappa.unwrap_err()));
    assert!(no_spread(
        concordance(&flat, &[1.0, 2.0, 3.0, 4.0], 0.95).unwrap_err()
    ));
}

/// The mean of raters has no reliability where targets' means do not differ at all; the figure
/// of a single score has a least value then (McGraw and Wong 1996: `-1 / (k - 1)`).
#[test]
fn targets_with_the_same_mean() {
    let same_means = whole(&[&[1.0, 2.0, 3.0], &[2.0, 3.0, 1.0], &[3.0, 1.0, 2.0]]);
    let single = icc(&same_means, Model::Consistency, Score::Single, 0.95).unwrap();
    assert!((single.value + 0.5).abs() < 1e-12);
    for model in [Model::OneWay, Model::Consistency, Model::Agreement] {
        let mean = icc(&same_means, model, Score::Mean, 0.95).unwrap_err();
        assert_eq!(mean, Lacking::NotPositive("the variance of scores"));
    }
}

/// `MSR + (MSC - MSE) / n` is 0.025 - 0.05 / 2 here, nothing but rounding in floats.
#[test]
fn parts_of_variance_that_cancel_out() {
    let rows = [[0.0, 2.0, 5.5, 5.5, 5.0], [5.5, 1.0, 5.5, 3.5, 3.0]];
    for by in 0..5 {
        let turned = rows.map(|mut row| {
            row.rotate_left(by);
            row.to_vec()
        });
        let ratings = Ratings::whole(&turned).unwrap();
        let mean = icc(&ratings, Model::Agreement, Score::Mean, 0.95).unwrap_err();
        assert_eq!(mean, Lacking::NotPositive("the variance of scores"));
    }
}

#[test]
fn perfect_agreement_is_1_and_has_no_test() {
    let perfect = whole(&[&[1.0, 1.0], &[2.5, 2.5], &[4.1, 4.1]]);
    for model in [Model::OneWay, Model::Consistency, Model::Agreement] {
        for score in [Score::Single, Score::Mean] {
            let one = icc(&perfect, model, score, 0.95).unwrap();
            let interval = one.interval.unwrap();
            assert_eq!((one.value, interval.low, interval.high), (1.0, 1.0, 1.0));
            assert!(one.test.is_err());
        }
    }
    let (first, second) = perfect.pairs().unwrap();
    let scale = perfect.distinct();
    let kappa = cohen_kappa(&first, &second, &scale, Weights::Quadratic, 0.95).unwrap();
    assert!(kappa.value == 1.0 && kappa.error < 1e-12);
    let lin = concordance(&first, &second, 0.95).unwrap();
    assert!((lin.value - 1.0).abs() < 1e-12 && lin.interval.is_err());
}

/// A rater who gives one score only: agreement is what chance gives, and cannot be tested.
#[test]
fn a_rater_who_gives_one_score_only() {
    let (first, second) = ([3.0; 4], [1.0, 2.0, 3.0, 3.0]);
    let kappa = cohen_kappa(&first, &second, &[1.0, 2.0, 3.0], Weights::Linear, 0.95).unwrap();
    assert!(kappa.value.abs() < 1e-12);
    assert_eq!(
        kappa.test,
        Err(Lacking::NoSpread("the scores of one rater"))
    );
}

#[test]
fn what_is_asked_is_checked() {
    let table = whole(&[&[1.0, 2.0], &[3.0, 3.0], &[2.0, 5.0]]);
    let one = |level| icc(&table, Model::Agreement, Score::Single, level);
    for level in [0.0, 1.0, -0.5, f64::NAN] {
        let fault = one(level).unwrap_err();
        assert_eq!(fault, Lacking::NotANumber("the level of confidence"));
    }
    let few = Resampling {
        draws: 99,
        seed: 0,
        level: 0.95,
    };
    let fault = icc_bootstrap(&table, Model::Agreement, Score::Single, &few).unwrap_err();
    assert_eq!(fault.to_string(), "draws: 99, and it takes 100");
    let (first, second) = ([1.0, 2.0], [2.0, 7.0]);
    let kappa = |scale: &[f64], weights| cohen_kappa(&first, &second, scale, weights, 0.95);
    let fault = kappa(&[1.0, 2.0], Weights::Equal).unwrap_err();
    assert_eq!(
        fault,
        Lacking::NotANumber("a score that is not on the scale")
    );
    let fault = kappa(&[7.0, 2.0, 1.0], Weights::Equal).unwrap_err();
    assert_eq!(fault, Lacking::NotANumber("a category that does not rise"));
    let too_much = vec![vec![1.0, 2.0, 0.0]; 3];
    assert!(kappa(&[1.0, 2.0, 7.0], Weights::Own(&too_much)).is_err());
    let uneven = cohen_kappa(&first, &second[..1], &[1.0], Weights::Equal, 0.95);
    assert!(matches!(uneven, Err(Lacking::Gaps(_))));
    assert!(bland_altman(&first[..1], &second[..1], LimitsAsked::default()).is_err());
    let three = whole(&[&[1.0, 2.0, 3.0]]);
    assert_eq!(
        three.pairs().unwrap_err().to_string(),
        "raters: 3, and it takes exactly two"
    );
    let below = whole(&[&[-1.0, 2.0], &[3.0, 2.0]]);
    assert!(alpha(&below, Metric::Ratio).is_err() && alpha(&below, Metric::Interval).is_ok());
    let no_partner = vec![
        Repeated {
            first: vec![1.0, 2.0],
            second: vec![1.5],
        };
        2
    ];
    let varying = bland_altman_varying(&no_partner, LimitsAsked::default());
    assert!(matches!(varying, Err(Lacking::Gaps(_))));
}

/// Two targets, one of them without any spread: most draws lack the figure.
#[test]
fn draws_without_a_figure_are_left_out_up_to_half() {
    let draws = Resampling {
        draws: 400,
        seed: 3,
        level: 0.9,
    };
    let half = whole(&[
        &[1.0, 1.0],
        &[1.0, 1.0],
        &[1.0, 1.0],
        &[1.0, 1.0],
        &[2.0, 1.0],
    ]);
    let drawn = alpha_bootstrap(&half, Metric::Nominal, &draws).unwrap();
    let kept = draws.draws - drawn.without;
    // The one that differs is drawn with probability 1 - 0.8^5 = 0.672.
    assert!((kept as f64 / 400.0 - 0.672).abs() < 4.0 * (0.672_f64 * 0.328 / 400.0).sqrt());
    let rows = [vec![vec![1.0, 1.0]; 40], vec![vec![2.0, 1.0]]].concat();
    let rare = Ratings::whole(&rows).unwrap();
    assert!(alpha_bootstrap(&rare, Metric::Nominal, &draws).is_ok());
    let none = icc_bootstrap(
        &whole(&[&[1.0, 2.0], &[2.0, 1.0]]),
        Model::OneWay,
        Score::Mean,
        &draws,
    );
    assert!(matches!(none, Err(Lacking::NotPositive(_))));
}
