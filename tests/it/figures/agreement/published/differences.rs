//! Figures of the differences of two ways of scoring.

use evenshod::figures::agreement::{
    LimitsAsked, Repeated, bland_altman, bland_altman_constant, bland_altman_varying, concordance,
};

use super::super::near;
use super::within;

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
