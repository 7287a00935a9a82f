//! The model itself: what a rating is expected to be, and one round of the search.

use super::design::{Design, Facet, Rating};
use super::scale::{Expected, Scale};
use crate::figures::Lacking;
use crate::figures::numbers::number;

/// Rounds of the fit at most.
pub(super) const ROUNDS: usize = 2000;
/// How far the levels given and those expected of any element may differ at the end.
pub(super) const CLOSE: f64 = 1e-6;
/// No parameter moves further in one round.
const STEP: f64 = 1.0;

/// What the fit has come to.
pub(super) struct State {
    /// The ratings that it rests on: not those of learners with all or nothing.
    pub(super) ratings: Vec<Rating>,
    /// Parameters by facet.
    pub(super) places: [Vec<f64>; 3],
    /// One for each level above 0.
    pub(super) steps: Vec<f64>,
}

impl State {
    /// What each element was given in all.
    pub(super) fn sums(&self, highest: usize) -> Result<[Vec<f64>; 3], Lacking> {
        let mut all = self
            .places
            .each_ref()
            .map(|places| vec![(0.0, 0.0); places.len()]);
        for rating in &self.ratings {
            for (facet, sums) in Facet::ALL.into_iter().zip(&mut all) {
                if let Some((sum, most)) = sums.get_mut(facet.of(rating)) {
                    *sum += number(rating.level);
                    *most += number(highest);
                }
            }
        }
        let is_extreme = |(sum, most): &(f64, f64)| *sum <= 0.0 || sum >= most;
        if all.iter().skip(1).flatten().any(is_extreme) {
            let what = "the levels of a criterion or an examiner";
            return Err(Lacking::NoSpread(what));
        }
        let plain = |all: Vec<(f64, f64)>| all.into_iter().map(|(sum, _)| sum).collect();
        Ok(all.map(plain))
    }

    /// Places a learner by a sum, with everything else as it is.
    pub(super) fn place_extreme(&mut self, design: &Design, learner: usize, sum: f64) {
        for _ in 0..ROUNDS {
            let own = design.ratings().iter().filter(|one| one.learner == learner);
            let mut scale = self.scale();
            let expected: Vec<Expected> = own.map(|one| scale.at(self.place(one))).collect();
            let mean: f64 = expected.iter().map(|one| one.mean).sum();
            let variance: f64 = expected.iter().map(|one| one.variance).sum();
            let step = ((sum - mean) / variance.max(1e-9)).clamp(-STEP, STEP);
            if let Some(place) = self.places_mut(Facet::Learner).get_mut(learner) {
                *place += step;
            }
            if (sum - mean).abs() < CLOSE {
                break;
            }
        }
    }

    /// One round over all parameters; gives the largest difference between what was given and
    /// what is expected.
    pub(super) fn round(&mut self, sums: &[Vec<f64>; 3], given: &[f64]) -> f64 {
        let mut most = 0.0f64;
        for (facet, sums) in Facet::ALL.into_iter().zip(sums) {
            let moved = self.moved(facet, sums);
            for (difference, step, place) in moved {
                most = most.max(difference.abs());
                if let Some(own) = self.places_mut(facet).get_mut(place) {
                    *own += step;
                }
            }
        }
        most.max(self.move_steps(given))
    }

    /// By element: given less expected, and how far its parameter goes (Newton's step).
    fn moved(&self, facet: Facet, sums: &[f64]) -> Vec<(f64, f64, usize)> {
        let mut expected = vec![(0.0, 0.0); sums.len()];
        let mut scale = self.scale();
        for rating in &self.ratings {
            let found = scale.at(self.place(rating));
            if let Some((mean, variance)) = expected.get_mut(facet.of(rating)) {
                *mean += found.mean;
                *variance += found.variance;
            }
        }
        let sign = if facet == Facet::Learner { 1.0 } else { -1.0 };
        let both = sums.iter().zip(expected).enumerate();
        let moved = both.map(|(at, (sum, (mean, variance)))| {
            let difference = sum - mean;
            let step = sign * difference / variance.max(1e-9);
            (difference, step.clamp(-STEP, STEP), at)
        });
        moved.collect()
    }

    /// Moves each step by how much more often its level is given than expected, against the
    /// one below it (Wright and Masters, Rating Scale Analysis (1982), 4.4).
    fn move_steps(&mut self, given: &[f64]) -> f64 {
        let mut expected = vec![0.0; given.len()];
        let mut scale = self.scale();
        for rating in &self.ratings {
            scale.at(self.place(rating));
            for (own, probability) in expected.iter_mut().zip(scale.shares()) {
                *own += probability;
            }
        }
        let differences = given.iter().zip(&expected);
        let most = differences.map(|(given, expected)| (given - expected).abs());
        let most = most.fold(0.0, f64::max);
        let below = given.iter().zip(&expected);
        let here = below.clone().skip(1);
        for (step, ((g0, e0), (g1, e1))) in self.steps.iter_mut().zip(below.zip(here)) {
            let change = (g0 / g1).ln() - (e0 / e1).ln();
            *step += change.clamp(-STEP, STEP);
        }
        most
    }

    /// Parameters of a facet.
    pub(super) fn places_of(&self, facet: Facet) -> &[f64] {
        let [learners, criteria, examiners] = &self.places;
        match facet {
            Facet::Learner => learners,
            Facet::Criterion => criteria,
            Facet::Examiner => examiners,
        }
    }

    fn places_mut(&mut self, facet: Facet) -> &mut [f64] {
        let [learners, criteria, examiners] = &mut self.places;
        match facet {
            Facet::Learner => learners,
            Facet::Criterion => criteria,
            Facet::Examiner => examiners,
        }
    }

    /// The scale of its steps.
    pub(super) fn scale(&self) -> Scale {
        Scale::of(&self.steps)
    }

    /// Where a rating stands on it.
    pub(super) fn place(&self, rating: &Rating) -> f64 {
        let [learners, criteria, examiners] = &self.places;
        let at = |places: &[f64], which: usize| places.get(which).copied().unwrap_or_default();
        at(learners, rating.learner)
            - at(criteria, rating.criterion)
            - at(examiners, rating.examiner)
    }

    /// Moves the means of criteria, examiners and steps into the learners.
    pub(super) fn centre(&mut self) {
        let mean = |all: &[f64]| all.iter().sum::<f64>() / number(all.len().max(1));
        let [learners, criteria, examiners] = &mut self.places;
        let mut off = 0.0;
        for places in [criteria, examiners, &mut self.steps] {
            let middle = mean(places);
            places.iter_mut().for_each(|place| *place -= middle);
            off += middle;
        }
        learners.iter_mut().for_each(|place| *place -= off);
    }

    pub(super) fn deviance(&self) -> f64 {
        let ratings = self.ratings.iter();
        let mut scale = self.scale();
        let logs = ratings.map(|rating| {
            scale.at(self.place(rating));
            let share = scale.shares().get(rating.level);
            share.map_or(0.0, |share| share.ln())
        });
        -2.0 * logs.sum::<f64>()
    }
}
