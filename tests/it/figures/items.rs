//! Test theory.

use evenshod::figures::Lacking;
use evenshod::figures::general::{Analysis, Design, Planned};
use evenshod::figures::items::{
    alpha, alpha_of_variances, conditional_errors, error_of_measurement, items, lengthened, omega,
    pass_reliability, times_longer,
};

use super::{all_close, close, rows};

/// Nine persons by eleven items, the complete rows of a data set in the documentation of
/// pingouin, which gives alpha 0.8016949153 (checked there against the R package psych).
fn eleven() -> Vec<Vec<f64>> {
    let typed = "11111111111 11111111010 11101101100 11111000100 11110010000
                 11111000000 01011000010 11100000000 10010000000";
    let row = |word: &str| {
        word.chars()
            .map(|c| f64::from(u8::from(c == '1')))
            .collect()
    };
    typed.split_whitespace().map(row).collect()
}

/// As above. The documentation's interval, 0.581 to 0.933, takes the degrees of freedom of
/// twelve rows though three are left out for gaps; with the nine that remain it is wider
/// (recomputed with scipy.stats.f).
#[test]
fn alpha_as_published() {
    let found = alpha(&eleven(), 0.95).unwrap();
    close(found.alpha, 0.801_694_915_3, 1e-9);
    let ends = [found.interval.low, found.interval.high];
    all_close(&ends, &[0.533_003_199_9, 0.947_207_967_3], 1e-9);
    assert_eq!(found.varying, 11);
    // Bland and Altman 1997 (BMJ 314, 572; from memory): ten items, 0.95.
    let summed = alpha_of_variances(&[1.116; 10], 77.44).unwrap();
    close(summed, 0.95, 5e-3);
    close(summed, 0.950_987_144_2, 1e-9);
}

/// Recomputed with numpy on the data of pingouin's documentation.
#[test]
fn each_item_among_the_others() {
    let found = items(&eleven(), &[1.0; 11]).unwrap();
    let with_rest: Vec<f64> = found
        .iter()
        .map(|item| item.with_rest.clone().unwrap())
        .collect();
    let wanted = [
        0.118_887_659_7,
        0.399_291_825_9,
        0.428_571_428_6,
        0.0,
        0.518_562_978_8,
        0.780_670_868_3,
        0.554_478_861_2,
        0.780_670_868_3,
        0.448_129_079_8,
        0.448_129_079_8,
        0.614_192_268_6,
    ];
    all_close(&with_rest, &wanted, 1e-9);
    let without = found.iter().map(|item| item.alpha_without.clone().unwrap());
    let wanted = [
        0.812_720_848_1,
        0.792_452_830_2,
        0.789_241_622_6,
        0.829_475_308_6,
        0.779_645_191_4,
        0.747_567_843_4,
        0.775_413_711_6,
        0.747_567_843_4,
        0.787_795_992_7,
        0.787_795_992_7,
        0.776_014_109_3,
    ];
    all_close(&without.collect::<Vec<f64>>(), &wanted, 1e-9);
    close(found[0].share, 8.0 / 9.0, 1e-12);
    let halves = items(&eleven(), &[2.0; 11]).unwrap();
    close(halves[0].share, 4.0 / 9.0, 1e-12);
    let error = error_of_measurement(2.862_594_006, 0.801_694_915_3).unwrap();
    close(error, 1.274_754_878, 1e-9);
}

/// Alpha is the G coefficient of persons by items (Brennan 2001, 2.3), and of the ratings of
/// Shrout and Fleiss 1979 their ICC(3,4), .91.
#[test]
fn alpha_is_the_coefficient_of_persons_by_items() {
    let ratings = rows("9 2 5 8\n6 1 3 2\n8 4 6 8\n7 1 2 6\n10 5 6 9\n6 2 4 7");
    let found = alpha(&ratings, 0.95).unwrap().alpha;
    close(found, 0.91, 5e-3);
    close(found, 0.909_315_542_4, 1e-9);
    let design = Design::crossed(&[('p', 6), ('i', 4)]).unwrap();
    let components = Analysis::of(&design, &ratings.concat())
        .unwrap()
        .components();
    let plan = [Planned {
        letter: 'i',
        levels: 4,
        is_fixed: false,
    }];
    close(components.decide('p', &plan).unwrap().g, found, 1e-12);
}

/// Brennan 2001, data set 1: everybody has the first item right.
#[test]
fn an_item_that_does_not_vary_is_told() {
    let typed = [
        [1.0, 0.0, 1.0],
        [1.0, 1.0, 1.0],
        [1.0, 0.0, 0.0],
        [1.0, 1.0, 0.0],
    ];
    let marks: Vec<Vec<f64>> = typed.iter().map(|row| row.to_vec()).collect();
    let found = items(&marks, &[1.0; 3]).unwrap();
    assert_eq!(
        found[0].with_rest,
        Err(Lacking::NoSpread("marks of this item"))
    );
    assert_eq!(found[0].deviation, 0.0);
    assert!(found[1].with_rest.is_ok());
    assert_eq!(alpha(&marks, 0.95).unwrap().varying, 2);
    assert_eq!(
        omega(&[marks.clone(), marks].concat()),
        Err(Lacking::NoSpread("marks of an item"))
    );
    let alike = vec![vec![0.1, 0.2, 0.3]; 5];
    assert_eq!(alpha(&alike, 0.95), Err(Lacking::NoSpread("totals")));
    // Items that go against one another exactly leave totals alike.
    let against = vec![vec![1.0, 0.0], vec![0.0, 1.0], vec![1.0, 0.0]];
    assert_eq!(alpha(&against, 0.95), Err(Lacking::NoSpread("totals")));
    let pair = items(&against, &[1.0, 1.0]).unwrap();
    assert!(matches!(pair[0].alpha_without, Err(Lacking::TooFew { .. })));
    close(pair[0].with_rest.clone().unwrap(), -1.0, 1e-12);
}

/// Lord 1955: of items marked 0 or 1 the error of a total `x` of `k` is
/// `sqrt(x (k - x) / (k - 1))`; nothing at either end.
#[test]
fn errors_of_single_totals() {
    let marks = eleven();
    let found = conditional_errors(&marks).unwrap();
    for (row, error) in marks.iter().zip(&found) {
        let total: f64 = row.iter().sum();
        close(*error, (total * (11.0 - total) / 10.0).sqrt(), 1e-12);
    }
    assert_eq!(found[0], 0.0);
    // Brennan 1998: their mean square is the absolute error variance of totals, here
    // (s_i + s_pi) 11.
    let design = Design::crossed(&[('p', 9), ('i', 11)]).unwrap();
    let components = Analysis::of(&design, &marks.concat()).unwrap().components();
    let of = |name: &str| components.named(name).unwrap().estimate;
    let mean = found.iter().map(|error| error * error).sum::<f64>() / 9.0;
    close(mean, 11.0 * (of("i") + of("pi")), 1e-9);
}

/// Spearman 1910 and Brown 1910, the formula: 0.6 doubled is 0.75; 0.844 of 12 items is 0.9
/// of 20 (Brennan 2001, data set 1, prints .901 from the unrounded 0.8445).
#[test]
fn longer_tests() {
    close(lengthened(0.6, 2.0).unwrap(), 0.75, 1e-12);
    close(
        lengthened(0.844, 20.0 / 12.0).unwrap(),
        0.900_170_648_5,
        1e-9,
    );
    close(times_longer(0.6, 0.75).unwrap(), 2.0, 1e-12);
    assert!(lengthened(-0.1, 2.0).is_err());
    assert!(lengthened(0.5, 0.0).is_err());
    assert!(times_longer(0.5, 1.0).is_err());
}

/// Constructed: items that are exactly `loading factor + error` in their correlations give
/// their loadings back. Rows are made so that their correlations are those of the model.
#[test]
fn omega_of_an_exact_factor() {
    // Four orthogonal columns of a Hadamard matrix of order 8 without the constant one, a
    // fifth for the factor: correlations are products of loadings exactly.
    let sign = |row: u32, column: u32| {
        if (row & column).count_ones().is_multiple_of(2) {
            1.0
        } else {
            -1.0
        }
    };
    let loadings = [0.9, 0.8, 0.7, 0.6];
    let row = |row: u32| -> Vec<f64> {
        let items = loadings.iter().zip(1..);
        let item = |(loading, column): (&f64, u32)| {
            let own: f64 = 1.0 - loading * loading;
            loading * sign(row, 7) + own.sqrt() * sign(row, column)
        };
        items.map(item).collect()
    };
    let marks: Vec<Vec<f64>> = (0..8).map(row).collect();
    let found = omega(&marks).unwrap();
    all_close(&found.loadings, &loadings, 1e-8);
    // 3^2 / (3^2 + 0.19 + 0.36 + 0.51 + 0.64)
    close(found.omega, 9.0 / 10.7, 1e-8);
    // Turned round, the same factor; with other units, another weight.
    let turned: Vec<Vec<f64>> = marks
        .iter()
        .map(|row| row.iter().map(|m| 5.0 - m).collect())
        .collect();
    close(omega(&turned).unwrap().omega, 9.0 / 10.7, 1e-8);
    let heavier = marks
        .iter()
        .map(|row| vec![10.0 * row[0], row[1], row[2], row[3]]);
    let heavier = omega(&heavier.collect::<Vec<_>>()).unwrap();
    let common = (9.0_f64 + 2.1).powi(2);
    close(
        heavier.omega,
        common / (common + 19.0 + 0.36 + 0.51 + 0.64),
        1e-8,
    );
}

#[test]
fn omega_without_a_single_fit_is_refused() {
    assert!(matches!(
        omega(&eleven()),
        Err(Lacking::TooFew {
            has: 9,
            needs: 12,
            ..
        })
    ));
    let twice = |at: u32| {
        let x = f64::from(at * at % 7);
        let y = f64::from(at * 5 % 11);
        vec![x, y, x + y, f64::from(at % 3)]
    };
    let dependent: Vec<Vec<f64>> = (0..12).map(twice).collect();
    assert_eq!(omega(&dependent), Err(Lacking::Dependent("items")));
}

/// Recomputed with scipy 1.17.1 multivariate_normal.cdf (mean 60, deviation 12, reliability
/// 0.8, pass mark 50, steps of 1); a median split has the closed form
/// `1/2 + asin(r) / pi` (Sheppard 1899).
#[test]
fn how_far_a_pass_can_be_relied_on() {
    let half = pass_reliability(50.0, 10.0, 0.5, 50.0, 0.0).unwrap();
    close(half.consistency, 2.0 / 3.0, 1e-9);
    close(half.accuracy, 0.75, 1e-9);
    close(half.kappa.unwrap(), 1.0 / 3.0, 1e-9);
    close(half.false_fails, half.false_passes, 1e-9);
    // A perfect test.
    let sure = pass_reliability(50.0, 10.0, 1.0, 43.0, 0.0).unwrap();
    all_close(&[sure.consistency, sure.accuracy], &[1.0, 1.0], 1e-6);
    // A pass mark far below all.
    let easy = pass_reliability(50.0, 1.0, 0.8, 10.0, 1.0).unwrap();
    assert_eq!(easy.kappa, None);
    close(easy.passing, 1.0, 1e-12);
    // Half a step below the pass mark passes too.
    let stepped = pass_reliability(60.0, 12.0, 0.8, 50.0, 1.0).unwrap();
    assert_eq!(
        stepped,
        pass_reliability(60.0, 12.0, 0.8, 49.5, 0.0).unwrap()
    );
    assert!(pass_reliability(60.0, 0.0, 0.8, 50.0, 1.0).is_err());
    assert!(pass_reliability(60.0, 12.0, -0.1, 50.0, 1.0).is_err());
}
