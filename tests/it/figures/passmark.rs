//! Setting a pass mark.

use evenshod::figures::passmark::{Borderline, angoff, borderline_group, borderline_regression};
use evenshod::figures::{Lacking, Resampling};

use super::{all_close, close};

const RESAMPLING: Resampling = Resampling {
    seed: 11,
    draws: 2000,
    level: 0.95,
};
const RATINGS: [f64; 12] = [1.0, 2.0, 2.0, 2.0, 3.0, 3.0, 3.0, 3.0, 4.0, 4.0, 4.0, 5.0];
const TOTALS: [f64; 12] = [
    38.0, 47.0, 51.0, 49.0, 58.0, 62.0, 55.0, 60.0, 70.0, 66.0, 73.0, 81.0,
];

fn pieces() -> Borderline<'static> {
    Borderline {
        totals: &TOTALS,
        ratings: &RATINGS,
        borderline: 2.0,
    }
}

/// Constructed; the line recomputed with scipy 1.17.1 linregress, the standard error by
/// `s sqrt(1/n + (x - mean)^2 / Sxx)`.
#[test]
fn borderline_regression_recomputed() {
    let found = borderline_regression(pieces(), RESAMPLING).unwrap();
    let line = found.line;
    all_close(
        &[line.slope, line.intercept],
        &[10.571_428_57, 27.452_380_95],
        1e-9,
    );
    close(line.r_squared.unwrap(), 0.962_418_348_5, 1e-9);
    close(found.cut, 48.595_238_1, 1e-9);
    close(found.standard_error, 0.972_379_32, 1e-9);
    assert!(found.spread.interval.low < found.cut && found.cut < found.spread.interval.high);
    assert_eq!(found, borderline_regression(pieces(), RESAMPLING).unwrap());
    let other = Resampling {
        seed: 12,
        ..RESAMPLING
    };
    assert_ne!(
        found.spread,
        borderline_regression(pieces(), other).unwrap().spread
    );
}

/// Constructed: 47, 51 and 49 are borderline. Of 27 draws of three, one has all 47 and one
/// all 51, and the standard deviation of their mean is `sqrt(8/3 / 3)`.
#[test]
fn borderline_group_by_hand() {
    let found = borderline_group(pieces(), RESAMPLING).unwrap();
    assert_eq!((found.count, found.mean, found.median), (3, 49.0, 49.0));
    let interval = found.mean_spread.interval;
    assert_eq!((interval.low, interval.high), (47.0, 51.0));
    let wanted = (8.0_f64 / 9.0).sqrt();
    // Four standard errors of a standard deviation over 2000 draws.
    close(
        found.mean_spread.standard_error,
        wanted,
        4.0 * wanted / 4000.0_f64.sqrt(),
    );
}

/// Constructed: three judges, four items of one mark; recomputed with numpy.
#[test]
fn angoff_by_hand() {
    let shares = vec![
        vec![0.6, 0.7, 0.5, 0.8],
        vec![0.5, 0.75, 0.55, 0.7],
        vec![0.65, 0.6, 0.5, 0.85],
    ];
    let found = angoff(&shares, &[1.0; 4], RESAMPLING).unwrap();
    all_close(&found.by_judge, &[2.6, 2.5, 2.6], 1e-12);
    close(found.cut, 2.566_666_667, 1e-9);
    close(found.standard_error, 0.033_333_333_33, 1e-9);
    close(found.by_item.iter().sum::<f64>(), found.cut, 1e-12);
    let weighed = angoff(&shares, &[10.0, 1.0, 1.0, 1.0], RESAMPLING).unwrap();
    all_close(&weighed.by_judge, &[8.0, 7.0, 8.45], 1e-12);
}

#[test]
fn what_has_no_cut_is_refused() {
    let far = Borderline {
        borderline: 9.0,
        ..pieces()
    };
    assert!(matches!(
        borderline_group(far, RESAMPLING),
        Err(Lacking::TooFew {
            what: "borderline pieces",
            has: 0,
            needs: 2
        })
    ));
    let alike = Borderline {
        ratings: &[3.0; 12],
        ..pieces()
    };
    assert!(matches!(
        borderline_regression(alike, RESAMPLING),
        Err(Lacking::NoSpread(_))
    ));
    let uneven = Borderline {
        ratings: &RATINGS[1..],
        ..pieces()
    };
    assert!(matches!(
        borderline_regression(uneven, RESAMPLING),
        Err(Lacking::Gaps(_))
    ));
    let few = Resampling {
        draws: 10,
        ..RESAMPLING
    };
    assert!(borderline_group(pieces(), few).is_err());
    let one = vec![vec![0.5, 0.5]];
    assert!(matches!(
        angoff(&one, &[1.0; 2], RESAMPLING),
        Err(Lacking::TooFew { .. })
    ));
    let beyond = vec![vec![0.5, 1.5], vec![0.5, 0.5]];
    assert!(matches!(
        angoff(&beyond, &[1.0; 2], RESAMPLING),
        Err(Lacking::NotANumber(_))
    ));
}

/// Two pieces of three have one rating: some draws have that rating alone, and no line. They
/// are left out and counted.
#[test]
fn draws_without_a_line_are_counted() {
    let pieces = Borderline {
        totals: &[50.0, 60.0, 70.0],
        ratings: &[2.0, 2.0, 3.0],
        borderline: 2.0,
    };
    let found = borderline_regression(pieces, RESAMPLING).unwrap();
    // (2/3)^3 + (1/3)^3 of the draws, within four standard errors.
    let share = found.spread.without as f64 / 2000.0;
    assert!((share - 1.0 / 3.0).abs() < 4.0 * (2.0_f64 / 9.0 / 2000.0).sqrt());
}
