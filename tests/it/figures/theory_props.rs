//! What holds for every set of marks: a figure is finite or lacking, and what it does not
//! depend on does not change it.

use evenshod::figures::gauge::{Crossed, Reference, bias, linearity};
use evenshod::figures::general::{Analysis, Design, Planned, crossed_with_gaps};
use evenshod::figures::items::{alpha, conditional_errors, items, omega, pass_reliability};
use evenshod::figures::passmark::{Borderline, angoff, borderline_group, borderline_regression};
use evenshod::figures::{Lacking, Resampling};
use proptest::prelude::*;

use super::close;

const RESAMPLING: Resampling = Resampling {
    seed: 3,
    draws: 100,
    level: 0.9,
};

/// Marks with many ties, or numbers of any size.
fn number() -> impl Strategy<Value = f64> + Clone + 'static {
    prop_oneof![
        8 => (0..6_i32).prop_map(f64::from),
        2 => -1e3..1e3_f64,
        1 => prop_oneof![Just(1e300), Just(-1e300), Just(1e-300), Just(0.1)],
    ]
}

/// Marks without the extremes.
fn mark() -> impl Strategy<Value = f64> + Clone + 'static {
    (0..21_i32).prop_map(|half| f64::from(half) / 2.0)
}

fn table(
    cell: impl Strategy<Value = f64> + Clone + 'static,
    rows: std::ops::Range<usize>,
    columns: std::ops::Range<usize>,
) -> impl Strategy<Value = Vec<Vec<f64>>> {
    columns.prop_flat_map(move |width| {
        let row = prop::collection::vec(cell.clone(), width);
        prop::collection::vec(row, rows.clone())
    })
}

fn all_finite(values: &[f64]) -> bool {
    values.iter().all(|value| value.is_finite())
}

fn shifted(rows: &[Vec<f64>], by: f64, times: f64) -> Vec<Vec<f64>> {
    let row = |row: &Vec<f64>| row.iter().map(|mark| by + times * mark).collect();
    rows.iter().map(row).collect()
}

fn plan(levels: &[(char, usize)]) -> Vec<Planned> {
    let planned = |(letter, levels): &(char, usize)| Planned {
        letter: *letter,
        levels: *levels,
        is_fixed: false,
    };
    levels.iter().map(planned).collect()
}

/// Both found and near, or both lacking.
fn alike(one: &Result<f64, Lacking>, other: &Result<f64, Lacking>) {
    match (one, other) {
        (Ok(one), Ok(other)) => close(*one, *other, 1e-7),
        (one, other) => assert_eq!(one.is_ok(), other.is_ok(), "{one:?} {other:?}"),
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(96))]

    #[test]
    fn gauge_figures_are_finite_or_lacking(
        flat in prop::collection::vec(number(), 24),
        shape in prop::sample::select(vec![(2, 3, 4), (3, 4, 2), (6, 2, 2), (12, 1, 2), (4, 3, 2)]),
        level in 0.0..1.0_f64,
    ) {
        let (_, operators, trials) = shape;
        let parts = flat.chunks(operators * trials);
        let readings = parts.map(|part| part.chunks(trials).map(<[f64]>::to_vec).collect());
        let Ok(study) = Crossed::of(&readings.collect::<Vec<_>>()) else {
            prop_assert_eq!(operators, 1);
            return Ok(());
        };
        let ranges = study.by_ranges().map(|found| found.deviations);
        let variance = study.by_variance(level);
        if let Ok(found) = &variance {
            let raw = [found.repeatability, found.operator, found.part];
            prop_assert!(all_finite(&raw));
            if let Ok(reading) = found.reading_uncertainty() {
                prop_assert!(reading.standard.is_finite() && reading.freedom > 0.0);
                close(reading.standard, found.deviations.gauge, 1e-9);
            }
        }
        for own in [ranges, variance.map(|found| found.deviations)].into_iter().flatten() {
            prop_assert!(own.gauge.is_finite() && own.total >= own.gauge && own.total >= own.part);
            if let Ok(shares) = own.of_variance() {
                prop_assert!((shares.gauge + shares.part - 1.0).abs() < 1e-9);
            }
            if let Ok(categories) = own.categories() {
                prop_assert!(categories.ratio.is_finite());
            }
        }
    }

    #[test]
    fn gauge_figures_know_no_order_no_zero_and_one_unit(
        flat in prop::collection::vec(mark(), 24),
        by in -50.0..50.0_f64,
        times in 0.1..10.0_f64,
    ) {
        let study = |flat: &[f64], turned: bool| {
            let parts = flat.chunks(6);
            let cells = |part: &[f64]| -> Vec<Vec<f64>> {
                let mut cells: Vec<Vec<f64>> = part.chunks(2).map(<[f64]>::to_vec).collect();
                if turned {
                    cells.reverse();
                    cells.iter_mut().for_each(|cell| cell.reverse());
                }
                cells
            };
            let mut parts: Vec<_> = parts.map(cells).collect();
            if turned {
                parts.reverse();
            }
            Crossed::of(&parts).unwrap()
        };
        let plain = study(&flat, false);
        let moved: Vec<f64> = flat.iter().map(|reading| by + times * reading).collect();
        for (other, unit) in [(study(&flat, true), 1.0), (study(&moved, false), times)] {
            let pairs = [
                (plain.by_ranges().unwrap().deviations, other.by_ranges().unwrap().deviations),
                (
                    plain.by_variance(1.0).unwrap().deviations,
                    other.by_variance(1.0).unwrap().deviations,
                ),
            ];
            for (one, other) in pairs {
                // Squared, as the root of a rounded nothing is not nothing.
                close(other.gauge.powi(2), (unit * one.gauge).powi(2), 1e-8);
                close(other.part.powi(2), (unit * one.part).powi(2), 1e-8);
                close(other.repeatability.powi(2), (unit * one.repeatability).powi(2), 1e-8);
            }
        }
    }

    #[test]
    fn bias_is_finite_or_lacking(
        pieces in prop::collection::vec(
            (number(), prop::collection::vec(number(), 0..5)), 0..5,
        ),
        level in 0.5..0.99_f64,
    ) {
        let pieces = pieces.into_iter().map(|(value, readings)| Reference { value, readings });
        let pieces: Vec<Reference> = pieces.collect();
        if let Ok(found) = linearity(&pieces, level) {
            let line = found.line;
            prop_assert!(all_finite(&[line.slope, line.intercept, line.residual]));
            prop_assert!(found.slope.low <= line.slope && line.slope <= found.slope.high);
        }
        for piece in &pieces {
            if let Ok(found) = bias(piece, level) {
                prop_assert!(found.bias.is_finite() && found.interval.low <= found.bias);
            }
        }
    }

    #[test]
    fn designs_come_apart_or_lack(flat in prop::collection::vec(number(), 24)) {
        let designs = [
            Design::crossed(&[('p', 6), ('i', 4)]),
            Design::crossed(&[('p', 2), ('r', 3), ('i', 4)]),
            Design::raters_within_tasks(4, 3, 2),
            Design::raters_within_persons(8, 3),
        ];
        for design in designs.into_iter().flatten() {
            let Ok(analysis) = Analysis::of(&design, &flat) else { continue };
            let squares: f64 = analysis.sources.iter().map(|source| source.squares).sum();
            let mean = flat.iter().sum::<f64>() / 24.0;
            let whole: f64 = flat.iter().map(|mark| (mark - mean).powi(2)).sum();
            prop_assert!((squares - whole).abs() <= 1e-9 * whole.max(1.0));
            let freedom: f64 = analysis.sources.iter().map(|source| source.freedom).sum();
            prop_assert_eq!(freedom, 23.0);
            let components = analysis.components();
            prop_assert!(components.parts.iter().all(|part| part.estimate.is_finite()));
            let others = design.facets().iter().skip(1);
            let plan = plan(&others.map(|facet| (facet.letter, 2)).collect::<Vec<_>>());
            if let Ok(found) = components.decide('p', &plan) {
                prop_assert!(0.0 <= found.phi && found.phi <= found.g && found.g <= 1.0);
            }
        }
    }

    #[test]
    fn coefficients_know_no_order_no_zero_and_no_unit(
        rows in table(mark(), 4..5, 3..4),
        by in -50.0..50.0_f64,
        times in 0.1..10.0_f64,
    ) {
        let g = |rows: &[Vec<f64>]| {
            let design = Design::crossed(&[('p', 4), ('i', 3)]).unwrap();
            let components = Analysis::of(&design, &rows.concat()).unwrap().components();
            // More pieces and examiners, more to rely on.
            if let Ok(more) = components.decide('p', &plan(&[('i', 4)])) {
                let fewer = components.decide('p', &plan(&[('i', 3)])).unwrap();
                assert!(more.g >= fewer.g && more.phi >= fewer.phi);
            }
            components
        };
        let turned: Vec<Vec<f64>> = rows.iter().rev().map(|row| row.iter().rev().copied().collect()).collect();
        let plain = g(&rows);
        for (other, unit) in [(g(&turned), 1.0), (g(&shifted(&rows, by, times)), times * times)] {
            for (one, other) in plain.parts.iter().zip(&other.parts) {
                close(other.estimate, unit * one.estimate, 1e-8);
            }
        }
    }

    #[test]
    fn gaps_are_borne(
        rows in prop::collection::vec(
            prop::collection::vec(prop::option::weighted(0.7, number()), 4), 0..7,
        ),
    ) {
        let found = crossed_with_gaps(&rows);
        let turned: Vec<Vec<Option<f64>>> =
            rows.iter().rev().map(|row| row.iter().rev().copied().collect()).collect();
        let turned = crossed_with_gaps(&turned);
        prop_assert_eq!(found.is_ok(), turned.is_ok());
        if let (Ok(found), Ok(turned)) = (found, turned) {
            let most = rows.iter().flatten().flatten().fold(1.0, |a: f64, b| a.max(b.abs()));
            for (one, other) in found.parts.iter().zip(&turned.parts) {
                prop_assert!(one.estimate.is_finite());
                let scale = 1e-9 * most * most;
                prop_assert!((one.estimate - other.estimate).abs() <= scale);
            }
        }
    }

    #[test]
    fn items_are_finite_or_lacking(rows in table(number(), 0..8, 0..5)) {
        if let Ok(found) = alpha(&rows, 0.9) {
            let numbers = [found.alpha, found.interval.low, found.interval.high];
            prop_assert!(all_finite(&numbers) && found.alpha <= 1.0);
            prop_assert!(found.interval.low <= found.interval.high);
        }
        let most = vec![5.0; rows.first().map_or(0, Vec::len)];
        for item in items(&rows, &most).into_iter().flatten() {
            prop_assert!(all_finite(&[item.mean, item.deviation, item.share]));
            if let Ok(found) = item.with_rest {
                prop_assert!((-1.0..=1.0).contains(&found));
            }
            if let Ok(found) = item.alpha_without {
                prop_assert!(found.is_finite());
            }
        }
        if let Ok(errors) = conditional_errors(&rows) {
            prop_assert!(all_finite(&errors));
        }
        if let Ok(found) = omega(&rows) {
            prop_assert!((0.0..=1.0).contains(&found.omega));
            prop_assert!(all_finite(&found.loadings) && all_finite(&found.unique));
        }
    }

    #[test]
    fn items_know_no_order_no_zero_and_no_unit(
        rows in table(mark(), 6..12, 3..5),
        by in -50.0..50.0_f64,
        times in 0.1..10.0_f64,
    ) {
        let turned: Vec<Vec<f64>> = rows.iter().rev().map(|row| row.iter().rev().copied().collect()).collect();
        let moved = shifted(&rows, by, times);
        let of = |rows: &[Vec<f64>]| alpha(rows, 0.95).map(|found| found.alpha);
        alike(&of(&rows), &of(&turned));
        alike(&of(&rows), &of(&moved));
        let most = vec![10.0; rows[0].len()];
        let plain = items(&rows, &most).unwrap();
        let turned_items = items(&turned, &most).unwrap();
        for (one, other) in plain.iter().zip(turned_items.iter().rev()) {
            alike(&one.with_rest, &other.with_rest);
            alike(&one.alpha_without, &other.alpha_without);
        }
        for (one, other) in plain.iter().zip(items(&moved, &most).unwrap()) {
            alike(&one.with_rest, &other.with_rest);
        }
        if let (Ok(one), Ok(other)) = (omega(&rows), omega(&moved)) {
            close(one.omega, other.omega, 1e-6);
        }
    }

    #[test]
    fn a_pass_is_a_probability(
        mean in number(),
        deviation in number(),
        reliability in -0.1..1.1_f64,
        pass in number(),
        step in 0.0..2.0_f64,
    ) {
        if let Ok(found) = pass_reliability(mean, deviation, reliability, pass, step) {
            for share in [found.passing, found.consistency, found.accuracy] {
                prop_assert!((0.0..=1.0 + 1e-9).contains(&share), "{found:?}");
            }
            prop_assert!(found.kappa.is_none_or(f64::is_finite));
            // Turned round, what passed fails.
            let turned = pass_reliability(-mean, deviation, reliability, step - pass, step).unwrap();
            close(turned.consistency, found.consistency, 1e-9);
            close(turned.false_fails, found.false_passes, 1e-9);
        }
    }

    #[test]
    fn cuts_are_finite_or_lacking(
        pairs in prop::collection::vec((number(), 0..4_i32), 0..10),
        shares in table(0.0..1.0_f64, 0..5, 0..4),
    ) {
        let (totals, ratings): (Vec<f64>, Vec<f64>) =
            pairs.into_iter().map(|(total, rating)| (total, f64::from(rating))).unzip();
        let pieces = Borderline { totals: &totals, ratings: &ratings, borderline: 2.0 };
        if let Ok(found) = borderline_group(pieces, RESAMPLING) {
            prop_assert!(all_finite(&[found.mean, found.median, found.mean_spread.standard_error]));
        }
        if let Ok(found) = borderline_regression(pieces, RESAMPLING) {
            prop_assert!(all_finite(&[found.cut, found.standard_error]));
            prop_assert!(found.spread.interval.low <= found.spread.interval.high);
        }
        let most = vec![4.0; shares.first().map_or(0, Vec::len)];
        if let Ok(found) = angoff(&shares, &most, RESAMPLING) {
            let least = found.by_judge.iter().fold(f64::INFINITY, |a, b| a.min(*b));
            prop_assert!(found.spread.interval.low >= least - 1e-9);
            prop_assert!(found.cut >= least - 1e-9);
        }
    }

    #[test]
    fn cuts_move_with_the_marks(
        pairs in prop::collection::vec((mark(), 1..4_i32), 4..12),
        by in -50.0..50.0_f64,
    ) {
        let (totals, ratings): (Vec<f64>, Vec<f64>) =
            pairs.into_iter().map(|(total, rating)| (total, f64::from(rating))).unzip();
        let moved: Vec<f64> = totals.iter().map(|total| total + by).collect();
        let cuts = |totals: &[f64]| {
            let pieces = Borderline { totals, ratings: &ratings, borderline: 2.0 };
            let group = borderline_group(pieces, RESAMPLING).map(|found| found.mean_spread.interval.low);
            let line = borderline_regression(pieces, RESAMPLING).map(|found| found.spread.interval.high);
            [group, line]
        };
        for (one, other) in cuts(&totals).into_iter().zip(cuts(&moved)) {
            alike(&one.map(|cut| cut + by), &other);
        }
    }
}
