//! What holds for every table: a finite figure or none, whatever the order of targets and
//! raters, and the invariances that each figure has.

mod every;

use evenshod::figures::agreement::{
    LimitsAsked, Metric, Model, Ratings, Repeated, Score, Weights, alpha, alpha_bootstrap,
    bland_altman, bland_altman_constant, bland_altman_varying, cohen_kappa, components,
    concordance, fleiss_kappa, icc, icc_bootstrap, kendall_w,
};
use evenshod::figures::{Lacking, Resampling};
use every::{MODELS, figures};
use proptest::prelude::*;

type Rows = Vec<Vec<Option<f64>>>;

/// Scores in halves with ties and gaps: targets by raters.
fn tables(gaps: bool) -> impl Strategy<Value = Rows> {
    (1_usize..9, 1_usize..6).prop_flat_map(move |(targets, raters)| {
        let score = (0_i32..12).prop_map(|halves| f64::from(halves) / 2.0);
        let cell = if gaps {
            prop::option::weighted(0.75, score).boxed()
        } else {
            score.prop_map(Some).boxed()
        };
        prop::collection::vec(prop::collection::vec(cell, raters), targets)
    })
}

/// Any numbers at all, huge and tiny ones among them.
fn wild() -> impl Strategy<Value = Rows> {
    let huge = prop_oneof![
        any::<f64>(),
        Just(1e308),
        Just(-1e308),
        Just(5e-324),
        (-3.0..3.0)
    ];
    let cell = prop::option::weighted(0.9, huge.prop_filter("finite", |one| one.is_finite()));
    (1_usize..5, 1_usize..4).prop_flat_map(move |(targets, raters)| {
        prop::collection::vec(prop::collection::vec(cell.clone(), raters), targets)
    })
}

#[track_caller]
fn finite(all: &[Result<f64, Lacking>]) -> Result<(), TestCaseError> {
    for one in all.iter().flatten() {
        prop_assert!(one.is_finite(), "{all:?}");
    }
    Ok(())
}

/// The same figures, or the same are lacking.
fn alike(
    all: &[Result<f64, Lacking>],
    others: &[Result<f64, Lacking>],
) -> Result<(), TestCaseError> {
    prop_assert_eq!(all.len(), others.len());
    for (at, pair) in all.iter().zip(others).enumerate() {
        match pair {
            (Ok(one), Ok(other)) => {
                let allowed = 1e-7 * (1.0 + one.abs());
                prop_assert!((one - other).abs() <= allowed, "{at}: {one} {other}");
            }
            (Err(_), Err(_)) => {}
            _ => prop_assert!(false, "{at}: {pair:?}"),
        }
    }
    Ok(())
}

fn turned(rows: &Rows, by: usize) -> Rows {
    let mut rows = rows.clone();
    let targets = rows.len();
    rows.rotate_left(by % targets);
    for row in &mut rows {
        let raters = row.len();
        row.rotate_left(by % raters);
    }
    rows
}

fn changed(rows: &Rows, change: impl Fn(f64) -> f64) -> Ratings {
    let rows = rows
        .iter()
        .map(|row| row.iter().map(|cell| cell.map(&change)).collect());
    Ratings::new(&rows.collect::<Vec<_>>()).unwrap()
}

proptest! {
    #[test]
    fn every_figure_is_finite_or_lacking(rows in prop_oneof![tables(true), tables(false), wild()]) {
        finite(&figures(&Ratings::new(&rows).unwrap()))?;
    }

    #[test]
    fn the_order_of_targets_and_raters_does_not_matter(
        rows in prop_oneof![tables(true), tables(false)],
        by in 0_usize..20,
    ) {
        let all = figures(&Ratings::new(&rows).unwrap());
        alike(&all, &figures(&Ratings::new(&turned(&rows, by)).unwrap()))?;
    }

    #[test]
    fn another_unit_or_zero_changes_no_share_of_variance(
        rows in prop_oneof![tables(true), tables(false)],
        factor in prop_oneof![Just(-3.0), Just(0.125), Just(25.4)],
        shift in prop_oneof![Just(-40.0), Just(0.0), Just(1000.0)],
    ) {
        let kept = |ratings: &Ratings| {
            let mut all: Vec<Result<f64, Lacking>> = Vec::new();
            for model in MODELS {
                for score in [Score::Single, Score::Mean] {
                    all.push(icc(ratings, model, score, 0.95).map(|found| found.value));
                }
            }
            all.push(components(ratings).and_then(|parts| parts.agreement(1.0)));
            all.extend([Metric::Nominal, Metric::Ordinal, Metric::Interval].map(|one| alpha(ratings, one)));
            all.push(kendall_w(ratings).map(|kendall| kendall.value));
            all.push(fleiss_kappa(ratings).map(|kappa| kappa.value));
            if let Ok((first, second)) = ratings.pairs() {
                all.push(concordance(&first, &second, 0.95).map(|lin| lin.value));
            }
            all
        };
        let all = kept(&Ratings::new(&rows).unwrap());
        alike(&all, &kept(&changed(&rows, |score| factor * score + shift)))?;
    }

    /// Ranks go by the order alone, names of categories by nothing at all, and a ratio by no unit.
    #[test]
    fn other_names_of_scores_change_nothing_where_names_do_not_count(rows in tables(true)) {
        let ratings = Ratings::new(&rows).unwrap();
        let risen = changed(&rows, |score| score.powi(3) + score);
        let renamed = changed(&rows, |score| (score * 2.0 * 7.0 + 3.0) % 13.0);
        let names = |ratings: &Ratings| vec![
            alpha(ratings, Metric::Nominal),
            fleiss_kappa(ratings).map(|kappa| kappa.value),
        ];
        alike(&names(&ratings), &names(&renamed))?;
        let order = |ratings: &Ratings| vec![
            alpha(ratings, Metric::Ordinal),
            kendall_w(ratings).map(|kendall| kendall.value),
        ];
        alike(&order(&ratings), &order(&risen))?;
        let ratio = |ratings: &Ratings| vec![alpha(ratings, Metric::Ratio)];
        alike(&ratio(&ratings), &ratio(&changed(&rows, |score| 25.4 * score)))?;
    }

    /// A category that nobody uses changes no unweighted kappa, and both raters are equal in it.
    #[test]
    fn kappa_of_either_rater_first(rows in prop::collection::vec((1_u8..5, 1_u8..5), 1..20)) {
        let (first, second): (Vec<f64>, Vec<f64>) = rows
            .iter()
            .map(|(one, other)| (f64::from(*one), f64::from(*other)))
            .unzip();
        let kappa = |a: &[f64], b: &[f64], scale: &[f64], weights| {
            cohen_kappa(a, b, scale, weights, 0.95).map(|kappa| kappa.value)
        };
        let (scale, wider) = ([1.0, 2.0, 3.0, 4.0], [0.0, 1.0, 2.0, 2.5, 3.0, 4.0]);
        let plain = kappa(&first, &second, &scale, Weights::Equal);
        alike(&[plain], &[kappa(&first, &second, &wider, Weights::Equal)])?;
        let quadratic = kappa(&first, &second, &scale, Weights::Quadratic);
        alike(&[quadratic], &[kappa(&second, &first, &scale, Weights::Quadratic)])?;
    }

    /// A bias comes out turned round, and a shift of one rater goes into it alone.
    #[test]
    fn differences_turn_with_their_raters(
        rows in prop::collection::vec((0_i32..40, 0_i32..40), 2..12),
        shift in -20_i32..20,
    ) {
        let (first, second): (Vec<f64>, Vec<f64>) = rows
            .iter()
            .map(|(one, other)| (f64::from(*one) / 4.0, f64::from(*other) / 4.0))
            .unzip();
        let asked = LimitsAsked::default();
        let one = bland_altman(&first, &second, asked).unwrap();
        let other = bland_altman(&second, &first, asked).unwrap();
        let shift = f64::from(shift);
        let shifted: Vec<f64> = first.iter().map(|score| score + shift).collect();
        let moved = bland_altman(&shifted, &second, asked).unwrap();
        alike(
            &[Ok(one.bias.value), Ok(one.low.value), Ok(one.deviation)],
            &[Ok(-other.bias.value), Ok(-other.high.value), Ok(moved.deviation)],
        )?;
        alike(&[Ok(one.high.value + shift)], &[Ok(moved.high.value)])?;
    }

    #[test]
    fn repeated_scores_give_finite_limits_or_none(
        sizes in prop::collection::vec((0_usize..4, 0_usize..4), 0..6),
        scores in prop::collection::vec(prop_oneof![-9.0..9.0, Just(1e300)], 24),
    ) {
        let mut scores = scores.into_iter().cycle();
        let targets: Vec<Repeated> = sizes
            .iter()
            .map(|(first, second)| Repeated {
                first: scores.by_ref().take(*first).collect(),
                second: scores.by_ref().take(*second).collect(),
            })
            .collect();
        let asked = LimitsAsked::default();
        for limits in [bland_altman_constant(&targets, asked), bland_altman_varying(&targets, asked)] {
            let Ok(limits) = limits else { continue };
            for one in [limits.bias, limits.low, limits.high] {
                let all = [one.value, one.error, one.interval.low, one.interval.high];
                prop_assert!(all.iter().all(|number| number.is_finite()), "{limits:?}");
            }
            prop_assert!(limits.low.value <= limits.high.value);
        }
    }

    #[test]
    fn an_interval_by_drawing_is_told_by_its_seed(rows in tables(true), seed in any::<u64>()) {
        let ratings = Ratings::new(&rows).unwrap();
        let draws = Resampling { draws: 100, seed, level: 0.9 };
        let alphas = alpha_bootstrap(&ratings, Metric::Interval, &draws);
        prop_assert_eq!(&alphas, &alpha_bootstrap(&ratings, Metric::Interval, &draws));
        let single = icc_bootstrap(&ratings, Model::Agreement, Score::Single, &draws);
        for found in [alphas, single].into_iter().flatten() {
            let ends = found.interval;
            prop_assert!(ends.low <= ends.high && ends.high <= 1.0 + 1e-9, "{ends:?}");
            prop_assert!(2 * found.without <= draws.draws);
        }
    }
}
