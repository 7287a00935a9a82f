//! Gauge studies, uncertainty, bias and linearity.

use evenshod::figures::Lacking;
use evenshod::figures::gauge::{
    Contribution, Crossed, POOLING_LEVEL, Reference, bias, combine, coverage, expected_range,
    linearity, of_mean, of_means, propagated, range_divisor,
};

use super::{all_close, close, rows};

/// Measurement Systems Analysis, 4th edition 2010 (AIAG), chapter III: 10 parts, 3
/// appraisers, 3 trials; a row is a part, its readings appraiser by appraiser. The data stand
/// alike in several published data sets.
fn aiag() -> Crossed {
    let typed = rows(
        "0.29 0.41 0.64 0.08 0.25 0.07 0.04 -0.11 -0.15
         -0.56 -0.68 -0.58 -0.47 -1.22 -0.68 -1.38 -1.13 -0.96
         1.34 1.17 1.27 1.19 0.94 1.34 0.88 1.09 0.67
         0.47 0.5 0.64 0.01 1.03 0.2 0.14 0.2 0.11
         -0.8 -0.92 -0.84 -0.56 -1.2 -1.28 -1.46 -1.07 -1.45
         0.02 -0.11 -0.21 -0.2 0.22 0.06 -0.29 -0.67 -0.49
         0.59 0.75 0.66 0.47 0.55 0.83 0.02 0.01 0.21
         -0.31 -0.2 -0.17 -0.63 0.08 -0.34 -0.46 -0.56 -0.49
         2.26 1.99 2.01 1.8 2.12 2.19 1.77 1.45 1.87
         -1.36 -1.25 -1.31 -1.68 -1.62 -1.5 -1.49 -1.77 -2.16",
    );
    let part = |row: &Vec<f64>| row.chunks(3).map(<[f64]>::to_vec).collect();
    Crossed::of(&typed.iter().map(part).collect::<Vec<_>>()).unwrap()
}

/// AIAG as above (printed values from memory). The manual rounds K1 to K3 to four digits, K3
/// from 0.31456 to 0.3146, so its figures hold to 2e-4.
#[test]
fn averages_and_ranges_as_published() {
    let found = aiag().by_ranges().unwrap();
    let ranges = [found.mean_range, found.operator_range, found.part_range];
    all_close(&ranges, &[0.3417, 0.4446, 3.511], 6e-4);
    let own = found.deviations;
    let sizes = [
        own.repeatability,
        own.reproducibility,
        own.gauge,
        own.part,
        own.total,
    ];
    all_close(&sizes, &[0.20188, 0.22963, 0.30575, 1.10456, 1.1461], 2e-4);
    let shares = own.of_study().unwrap();
    let shares = [
        shares.repeatability,
        shares.reproducibility,
        shares.gauge,
        shares.part,
    ];
    all_close(&shares, &[0.1762, 0.2004, 0.2668, 0.9638], 1.1e-4);
    let categories = own.categories().unwrap();
    close(categories.ratio, 5.094, 1e-3);
    assert_eq!(categories.distinct, 5);
}

/// AIAG as above, analysis of variance with the interaction pooled (printed values seen in
/// published data sets).
#[test]
fn analysis_of_variance_as_published() {
    let found = aiag().by_variance(POOLING_LEVEL).unwrap();
    let interaction = found.interaction.unwrap();
    all_close(&[interaction.f, interaction.p], &[0.434, 0.974], 6e-4);
    assert!(interaction.is_pooled);
    assert_eq!(interaction.freedom, (18.0, 60.0));
    let own = found.deviations;
    let sizes = [own.repeatability, own.reproducibility, own.gauge, own.part];
    all_close(&sizes, &[0.199_933, 0.226_838, 0.302_373, 1.042_327], 2e-6);
    close(own.total, 1.085, 5e-4);
    let variances = [found.repeatability, found.operator, found.part];
    all_close(&variances, &[0.03997, 0.05146, 1.08645], 6e-6);
    let shares = own.of_variance().unwrap();
    let shares = [
        shares.repeatability,
        shares.reproducibility,
        shares.gauge,
        shares.part,
    ];
    all_close(&shares, &[0.034, 0.044, 0.078, 0.922], 6e-4);
    let shares = own.of_study().unwrap();
    let shares = [
        shares.gauge,
        shares.repeatability,
        shares.reproducibility,
        shares.part,
    ];
    all_close(&shares, &[0.2786, 0.1842, 0.209, 0.9604], 6e-5);
    let categories = own.categories().unwrap();
    close(categories.ratio, 4.861, 1e-3);
    assert_eq!(categories.distinct, 4);
    // Of a tolerance of 8: six deviations over it.
    close(
        own.of_tolerance(8.0).unwrap().gauge,
        6.0 * own.gauge / 8.0,
        1e-12,
    );
}

/// As above with the interaction kept: 0.214435 (seen in published data sets), and a negative
/// interaction that is told as it is and counts as nothing.
#[test]
fn an_interaction_that_is_kept() {
    let found = aiag().by_variance(1.0).unwrap();
    close(found.deviations.repeatability, 0.214_435, 2e-6);
    let interaction = found.operator_by_part.unwrap();
    // (0.3589822222 / 18 - 2.758933333 / 60) / 3, by hand from the sums of squares.
    close(interaction, -0.008_679_588_477, 1e-9);
    close(found.interaction.unwrap().estimate, interaction, 1e-12);
    let own = found.deviations;
    close(
        own.gauge.powi(2),
        found.repeatability + found.operator,
        1e-12,
    );
}

/// Of pooled mean squares the variance of a reading is `MSo / 30 + 29 / 30 MSe`, with 2 and
/// 78 degrees of freedom; Satterthwaite by hand.
#[test]
fn one_reading_has_the_gauge_as_uncertainty() {
    let found = aiag().by_variance(POOLING_LEVEL).unwrap();
    let reading = found.reading_uncertainty().unwrap();
    close(reading.standard, found.deviations.gauge, 1e-12);
    let operator: f64 = 3.167_262_222_222_222 / 2.0 / 30.0;
    let within: f64 = (0.358_982_222_222_222 + 2.758_933_333_333_333) / 78.0 * 29.0 / 30.0;
    let freedom = (operator + within).powi(2) / (operator.powi(2) / 2.0 + within.powi(2) / 78.0);
    close(reading.freedom, freedom, 1e-9);
}

/// Tables of control chart constants (ASTM MNL 7, from memory): d2 and d3 to three digits;
/// exactly for two values 2 / sqrt(pi) and sqrt(2 - 4 / pi), for three d2 = 3 / sqrt(pi).
#[test]
fn ranges_of_normal_values_as_tabled() {
    use std::f64::consts::{FRAC_1_SQRT_2, PI};
    let tabled = [
        (2, 1.128, 0.853),
        (3, 1.693, 0.888),
        (4, 2.059, 0.880),
        (5, 2.326, 0.864),
        (10, 3.078, 0.797),
        (25, 3.931, 0.708),
    ];
    for (size, mean, deviation) in tabled {
        let found = expected_range(size);
        all_close(&[found.mean, found.deviation], &[mean, deviation], 6e-4);
    }
    let two = expected_range(2);
    close(two.mean, 2.0 / PI.sqrt(), 1e-8);
    close(two.deviation, (2.0 - 4.0 / PI).sqrt(), 1e-8);
    close(expected_range(3).mean, 3.0 / PI.sqrt(), 1e-8);
    // AIAG prints K1 0.8862 0.5908, K2 0.7071 (the root of 1/2) 0.5231, K3 0.3146 (from memory).
    let ks = [
        1.0 / two.mean,
        1.0 / expected_range(3).mean,
        1.0 / range_divisor(2, 1),
        1.0 / range_divisor(3, 1),
        1.0 / range_divisor(10, 1),
    ];
    all_close(&ks, &[0.8862, 0.5908, FRAC_1_SQRT_2, 0.5231, 0.3146], 6e-5);
}

#[test]
fn what_is_not_crossed_is_refused() {
    let cell = || vec![1.0, 2.0];
    let gap = Crossed::of(&[vec![cell(), cell()], vec![cell(), vec![1.0]]]);
    assert_eq!(
        gap.unwrap_err().to_string(),
        "trials of each part by each operator: a value is missing, and this takes all of them"
    );
    let nested = Crossed::of(&[vec![cell(), cell()], vec![cell()]]);
    assert!(matches!(
        nested,
        Err(Lacking::Gaps("operators who measured each part"))
    ));
    let one = Crossed::of(&[vec![cell()], vec![cell()]]);
    assert!(matches!(
        one,
        Err(Lacking::TooFew {
            what: "operators",
            has: 1,
            needs: 2
        })
    ));
    let nan = Crossed::of(&[vec![cell(), cell()], vec![cell(), vec![1.0, f64::NAN]]]);
    assert_eq!(nan.unwrap_err(), Lacking::NotANumber("a reading"));
}

#[test]
fn readings_all_alike_have_no_shares() {
    let same = vec![vec![vec![0.1; 3]; 2]; 4];
    let study = Crossed::of(&same).unwrap();
    for own in [
        study.by_ranges().unwrap().deviations,
        study.by_variance(POOLING_LEVEL).unwrap().deviations,
    ] {
        assert_eq!(own.total, 0.0);
        assert_eq!(own.of_study(), Err(Lacking::NoSpread("readings")));
        assert_eq!(
            own.categories(),
            Err(Lacking::NoSpread("readings of one part"))
        );
    }
    let found = study.by_variance(POOLING_LEVEL).unwrap();
    assert!(found.interaction.is_none());
    assert!(found.reading_uncertainty().is_err());
}

/// JCGM 100:2008, H.1, the end gauge: contributions in nm with their degrees of freedom; the
/// published u 32 nm, 16.7 degrees of freedom from rounded terms, truncated 16, k 2.12 for
/// 95 % and 2.92 for 99 %. Unrounded values recomputed.
#[test]
fn the_end_gauge_as_published() {
    let part = |standard, freedom| Contribution { standard, freedom };
    let found = combine(&[
        part(25.0, 18.0),
        part(9.7, 25.6),
        part(2.9, 50.0),
        part(16.675, 2.0),
    ])
    .unwrap();
    close(found.standard, 32.0, 0.5 / 32.0);
    close(found.freedom, 16.7, 0.15 / 16.7);
    let k95 = coverage(found.freedom, 0.95).unwrap();
    close(k95, 2.12, 5e-3);
    close(k95, 2.119_905_299_221_255, 1e-9);
    close(coverage(found.freedom, 0.99).unwrap(), 2.92, 5e-3);
    // The normal distribution's, where all is known exactly.
    close(
        coverage(f64::INFINITY, 0.95).unwrap(),
        1.959_963_984_540_054,
        1e-9,
    );
    // Many degrees of freedom come near it; recomputed with scipy.stats.t.
    close(coverage(1e4, 0.95).unwrap(), 1.960_201_239_891, 1e-9);
    close(coverage(10_001.0, 0.95).unwrap(), 1.960_201_216_165, 1e-9);
    close(coverage(1e7, 0.95).unwrap(), 1.959_964_221_767, 1e-9);
    // A t quantile far out: 25 degrees of freedom (tables of t, 99.9 %: 3.725).
    close(coverage(25.0, 0.999).unwrap(), 3.725, 1e-3);
}

/// JCGM 100:2008, G.4.1, a product of three inputs (from memory): relative uncertainties of
/// 0.25, 0.57 and 0.82 % from 10, 5 and 15 readings give 1.03 %, 19 degrees of freedom,
/// k 2.09 and U 2.2 %.
#[test]
fn a_product_of_three_as_published() {
    let part = |standard, freedom| Contribution { standard, freedom };
    let found = combine(&[part(0.25, 9.0), part(0.57, 4.0), part(0.82, 14.0)]).unwrap();
    close(found.standard, 1.03, 5e-3);
    close(found.freedom, 18.998_742_31, 1e-9);
    let t = coverage(19.0, 0.95).unwrap();
    close(t, 2.093_024_054, 1e-9);
    close(t * found.standard, 2.2, 0.05);
    assert!(combine(&[]).is_err());
    assert!(combine(&[part(0.0, 3.0)]).is_err());
    assert!(combine(&[part(1.0, 0.0)]).is_err());
    let known = combine(&[part(3.0, f64::INFINITY), part(4.0, f64::INFINITY)]).unwrap();
    assert_eq!((known.standard, known.freedom), (5.0, f64::INFINITY));
}

/// AIAG, 4th edition, chapter III-B, linearity: five parts of known size with twelve readings
/// each (data and printed values from memory: slope -0.13167, intercept 0.73667, s 0.23954,
/// R^2 0.714).
#[test]
fn linearity_as_published() {
    let typed = rows(
        "2.7 2.5 2.4 2.5 2.7 2.3 2.5 2.5 2.4 2.4 2.6 2.4
         5.1 3.9 4.2 5.0 3.8 3.9 3.9 3.9 3.9 4.0 4.1 3.8
         5.8 5.7 5.9 5.9 6.0 6.1 6.0 6.1 6.4 6.3 6.0 6.1
         7.6 7.7 7.8 7.7 7.8 7.8 7.8 7.7 7.8 7.5 7.6 7.7
         9.1 9.3 9.5 9.3 9.4 9.5 9.5 9.5 9.6 9.2 9.3 9.4",
    );
    let sizes = [2.0, 4.0, 6.0, 8.0, 10.0];
    let pieces: Vec<Reference> = typed
        .into_iter()
        .zip(sizes)
        .map(|(readings, value)| Reference { value, readings })
        .collect();
    let found = linearity(&pieces, 0.95).unwrap();
    let line = found.line;
    all_close(&[line.slope, line.intercept], &[-0.13167, 0.73667], 6e-6);
    close(line.residual, 0.23954, 6e-6);
    close(line.r_squared.unwrap(), 0.714, 6e-4);
    assert!(found.slope.high < 0.0);
    assert_eq!(found.range, (2.0, 10.0));
    let biases = pieces.iter().map(|piece| bias(piece, 0.95).unwrap().bias);
    let biases: Vec<f64> = biases.collect();
    let printed = [0.491_667, 0.125, 0.025, -0.291_667, -0.616_667];
    all_close(&biases, &printed, 1e-6);
    // The line's height at the mean size is the mean bias.
    let middle = biases.iter().sum::<f64>() / 5.0;
    close(
        0.5 * (found.at_middle.low + found.at_middle.high),
        middle,
        1e-12,
    );
}

/// JCGM 100:2008, 4.2.3: the mean of `n` readings has `s / sqrt(n)` and `n - 1`.
#[test]
fn the_mean_of_readings_is_surer_than_one() {
    let found = of_mean(&[1.0, 2.0, 3.0, 4.0]).unwrap();
    close(found.standard, (5.0_f64 / 3.0 / 4.0).sqrt(), 1e-12);
    assert_eq!(found.freedom, 3.0);
    assert!(of_mean(&[1.0]).is_err());
    // 4.4.3 (readings and results from memory): 20 temperatures, s = 1.489, of the mean 0.333.
    let typed = rows(
        "96.90 98.18 98.25 98.61 99.03 99.49 99.56 99.74 99.89 100.07
         100.33 100.42 100.68 100.95 101.11 101.20 101.57 101.84 102.36 102.72",
    );
    let temperatures = of_mean(&typed.concat()).unwrap();
    assert!((temperatures.standard - 0.333).abs() < 6e-4);
    close(temperatures.standard, 0.332_915_747_2, 1e-9);
    let piece = Reference {
        value: 2.0,
        readings: vec![2.0, 2.0, 2.0],
    };
    assert!(bias(&piece, 0.95).is_ok_and(|found| found.interval.low == 0.0));
    assert!(linearity(&[piece.clone(), piece], 0.95).is_err());
}

/// JCGM 100:2008, H.2: resistance, reactance and impedance of voltage, current and phase that
/// were read together, with their uncertainties and correlations as printed (the latter from
/// memory).
#[test]
fn results_of_readings_taken_together_hang_together() {
    let read = rows(
        "5.007 4.994 5.005 4.990 4.999
         0.019663 0.019639 0.019640 0.019685 0.019678
         1.0456 1.0438 1.0468 1.0428 1.0433",
    );
    let covariances = of_means(&read).unwrap();
    let mean = |row: usize| read[row].iter().sum::<f64>() / 5.0;
    let (volt, ampere, phase) = (mean(0), mean(1), mean(2));
    let z = volt / ampere;
    let (r, x) = (z * phase.cos(), z * phase.sin());
    let slopes = |part: f64, turned: f64| vec![part / volt, -part / ampere, turned];
    let found = propagated(&[slopes(r, -x), slopes(x, r), slopes(z, 0.0)], &covariances).unwrap();
    for (value, printed) in [(r, 127.732), (x, 219.847), (z, 254.260)] {
        assert!((value - printed).abs() < 1e-3, "{value}");
    }
    let off = |at: usize| found[at][at].sqrt();
    for (at, printed) in [0.071, 0.295, 0.236].into_iter().enumerate() {
        assert!((off(at) - printed).abs() < 1.1e-3, "{}", off(at));
    }
    for (one, other, printed) in [(0, 1, -0.588), (0, 2, -0.485), (1, 2, 0.993)] {
        let together = found[one][other] / (off(one) * off(other));
        assert!((together - printed).abs() < 5e-3, "{together}");
    }
    assert!(of_means(&[vec![1.0, 2.0], vec![1.0]]).is_err());
    assert!(propagated(&[vec![1.0]], &covariances).is_err());
}
