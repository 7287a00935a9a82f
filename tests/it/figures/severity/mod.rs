//! Severity of examiners: what was put into simulated ratings comes out of them.

use evenshod::figures::Lacking;
use evenshod::figures::severity::{Design, Element, Facet, Rating, severity};
use proptest::prelude::*;
use rand_xoshiro::Xoshiro256PlusPlus;
use rand_xoshiro::rand_core::SeedableRng as _;

use super::near::within;

const STEPS: [f64; 4] = [-1.5, -0.5, 0.5, 1.5];

/// A number from 0 to 1.
fn chance(random: &mut Xoshiro256PlusPlus) -> f64 {
    f64::from(random.next_u32()) / f64::from(u32::MAX)
}

/// A level drawn where `place` is what learner, criterion and examiner come to.
fn drawn(place: f64, random: &mut Xoshiro256PlusPlus) -> usize {
    let mut weights = vec![1.0];
    let mut sum = 0.0;
    for step in STEPS {
        sum += place - step;
        weights.push(f64::exp(sum));
    }
    let mut left = chance(random) * weights.iter().sum::<f64>();
    for (level, weight) in weights.iter().enumerate() {
        left -= weight;
        if left <= 0.0 {
            return level;
        }
    }
    weights.len() - 1
}

/// Evenly from `-most` to `most`.
fn even(many: usize, most: f64) -> Vec<f64> {
    let last = (many - 1) as f64;
    (0..many)
        .map(|at| most * (2.0 * at as f64 / last - 1.0))
        .collect()
}

struct Simulated {
    ratings: Vec<Rating>,
    learners: Vec<f64>,
    criteria: Vec<f64>,
    examiners: Vec<f64>,
}

/// Each learner is seen by two examiners on every criterion, in turns.
fn simulated([learners, criteria, examiners]: [usize; 3], seed: u64) -> Simulated {
    let mut random = Xoshiro256PlusPlus::seed_from_u64(seed);
    let (abilities, hard) = (even(learners, 2.0), even(criteria, 1.0));
    let severe = even(examiners, 0.8);
    let mut ratings = Vec::new();
    for (learner, ability) in abilities.iter().enumerate() {
        for turn in 0..2 {
            let examiner = (learner + turn) % examiners;
            for (criterion, hard) in hard.iter().enumerate() {
                let place = ability - hard - severe[examiner];
                ratings.push(Rating {
                    learner,
                    criterion,
                    examiner,
                    level: drawn(place, &mut random),
                });
            }
        }
    }
    Simulated {
        ratings,
        learners: abilities,
        criteria: hard,
        examiners: severe,
    }
}

/// Places lie within so many standard errors of what was put in, and half of them within one.
#[track_caller]
fn recovered(found: &[Element], known: &[f64], most: f64) {
    let off: Vec<f64> = found
        .iter()
        .zip(known)
        .map(|(found, known)| ((found.place - known) / found.error).abs())
        .collect();
    assert!(off.iter().all(|off| *off < most), "{off:?}");
    let near = off.iter().filter(|off| **off < 1.0).count();
    assert!(2 * near >= off.len(), "{off:?}");
}

#[test]
fn what_was_put_in_comes_out() {
    let put = simulated([120, 12, 6], 1);
    let design = Design::of(put.ratings, 4).unwrap();
    let found = severity(&design).unwrap();
    recovered(&found.criteria, &put.criteria, 3.5);
    recovered(&found.examiners, &put.examiners, 3.5);
    recovered(&found.learners, &put.learners, 4.0);
    for (found, known) in found.steps.iter().zip(STEPS) {
        within(*found, known, 0.25);
    }
    let mean = |all: &[Element]| all.iter().map(|one| one.place).sum::<f64>();
    within(mean(&found.criteria), 0.0, 1e-9);
    within(mean(&found.examiners), 0.0, 1e-9);
    // Ratings drawn from the model fit it.
    let fits = found.examiners.iter().chain(&found.criteria);
    assert!(fits.clone().all(|one| (0.8..1.2).contains(&one.infit)));
    assert!(found.spread.reliability > 0.85 && found.spread.separation > 2.0);
}

/// At the end each element was given what is expected of it, so that no parameter by itself
/// can be moved to fit better.
#[test]
fn no_examiner_moved_by_a_little_fits_better() {
    let put = simulated([40, 6, 4], 7);
    let design = Design::of(put.ratings.clone(), 4).unwrap();
    let found = severity(&design).unwrap();
    let deviance = |moved: f64| {
        let logs = put.ratings.iter().map(|rating| {
            let at = found.learners[rating.learner].place
                - found.criteria[rating.criterion].place
                - found.examiners[rating.examiner].place
                - if rating.examiner == 0 { moved } else { 0.0 };
            let mut weights = vec![1.0];
            let mut sum = 0.0;
            for step in &found.steps {
                sum += at - step;
                weights.push(f64::exp(sum));
            }
            (weights[rating.level] / weights.iter().sum::<f64>()).ln()
        });
        -2.0 * logs.sum::<f64>()
    };
    within(deviance(0.0), found.deviance, 1e-6);
    assert!(deviance(0.02) > found.deviance && deviance(-0.02) > found.deviance);
}

#[test]
fn a_mild_examiner_is_told_from_a_severe_one_although_their_learners_differ() {
    // Two levels less from the second examiner, who sees the better half more often.
    let mut put = simulated([60, 8, 3], 3);
    for rating in &mut put.ratings {
        if rating.examiner == 2 {
            rating.level = rating.level.saturating_sub(1);
        }
    }
    let found = severity(&Design::of(put.ratings, 4).unwrap()).unwrap();
    let places: Vec<f64> = found.examiners.iter().map(|one| one.place).collect();
    assert!(places[2] - places[1] > 1.0, "{places:?}");
}

#[test]
fn learners_with_all_or_nothing_are_placed_and_move_nobody_else() {
    let put = simulated([40, 6, 4], 5);
    let plain = severity(&Design::of(put.ratings.clone(), 4).unwrap()).unwrap();
    let mut more = put.ratings.clone();
    for criterion in 0..6 {
        for (learner, level) in [(40, 4), (41, 0)] {
            more.push(Rating {
                learner,
                criterion,
                examiner: 0,
                level,
            });
        }
    }
    let found = severity(&Design::of(more, 4).unwrap()).unwrap();
    for (one, other) in plain.examiners.iter().zip(&found.examiners) {
        within(one.place, other.place, 1e-9);
    }
    let [best, worst] = [found.learners[40], found.learners[41]];
    assert!(best.place > 2.0 && worst.place < -2.0 && best.place.is_finite());
    assert!(best.error > plain.learners[0].error);
}

#[test]
fn parts_that_nothing_joins_are_named() {
    let rating = |learner, criterion, examiner, level| Rating {
        learner,
        criterion,
        examiner,
        level,
    };
    // Learners 0 and 1 were seen by examiner 0 only, 2 and 3 by 1 only.
    let ratings: Vec<Rating> = (0..4)
        .flat_map(|learner| (0..3).map(move |criterion| (learner, criterion)))
        .map(|(learner, criterion)| {
            rating(learner, criterion, learner / 2, (learner + criterion) % 3)
        })
        .collect();
    let design = Design::of(ratings.clone(), 2).unwrap();
    let subsets = design.subsets();
    assert_eq!(subsets.len(), 2);
    assert_eq!(subsets[0].facets, [Facet::Learner, Facet::Examiner]);
    assert_eq!(subsets[0].first, [0, 1].into());
    assert_eq!(subsets[1].second, [1].into());
    assert!(matches!(severity(&design), Err(Lacking::Apart(_))));
    // One piece that both look at joins them.
    let mut joined = ratings;
    joined.push(rating(0, 0, 1, 1));
    let design = Design::of(joined, 2).unwrap();
    assert!(design.subsets().is_empty());
    assert!(severity(&design).is_ok());
}

#[test]
fn ratings_that_cannot_stand_are_refused() {
    let put = simulated([10, 3, 2], 2);
    assert!(
        Design::of(put.ratings.clone(), 3).is_err(),
        "a level above the highest"
    );
    let mut gap = put.ratings.clone();
    gap.retain(|rating| rating.learner != 4);
    assert!(matches!(Design::of(gap, 4), Err(Lacking::Gaps(_))));
    let one: Vec<Rating> = put
        .ratings
        .iter()
        .filter(|rating| rating.examiner == 0)
        .copied()
        .collect();
    assert!(Design::of(one, 4).is_err());
    let mut full = put.ratings;
    for rating in &mut full {
        if rating.criterion == 1 {
            rating.level = 4;
        }
    }
    let design = Design::of(full, 4).unwrap();
    assert!(matches!(severity(&design), Err(Lacking::NoSpread(_))));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    /// Any ratings: places that are numbers, or a reason.
    #[test]
    fn any_ratings_are_fitted_or_refused(levels in prop::collection::vec(0_usize..4, 24)) {
        let ratings = levels.into_iter().enumerate().map(|(at, level)| Rating {
            learner: at / 4,
            criterion: at % 2,
            examiner: (at / 2 + at / 8) % 2,
            level,
        });
        if let Ok(design) = Design::of(ratings.collect(), 3)
            && let Ok(found) = severity(&design)
        {
            let all = found.learners.iter().chain(&found.criteria).chain(&found.examiners);
            prop_assert!(all.clone().all(|one| one.place.is_finite() && one.error.is_finite()));
            prop_assert!(found.deviance.is_finite());
        }
    }
}
