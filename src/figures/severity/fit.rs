use std::collections::BTreeMap;

use super::design::{Design, Facet, Rating};
use super::quality::{Element, Spread, elements, spread};
use crate::figures::Lacking;
use crate::figures::numbers::number;

/// Rounds of the fit at most.
const ROUNDS: usize = 2000;
/// How far the levels given and those expected of any element may differ at the end.
const CLOSE: f64 = 1e-6;
/// No parameter moves further in one round.
const STEP: f64 = 1.0;
/// What is taken off the highest sum of a learner, or added to the lowest, whose place would
/// be endless (common practice, no source).
const EXTREME: f64 = 0.3;

/// Learners, criteria and examiners on one scale, in logits.
#[derive(Debug, Clone, PartialEq)]
pub struct Severity {
    /// How able learners are, with fit and standard errors.
    pub learners: Vec<Element>,
    /// How hard criteria are.
    pub criteria: Vec<Element>,
    /// How severe examiners are.
    pub examiners: Vec<Element>,
    /// What it takes to get from each level to the next, from the second one on.
    pub steps: Vec<f64>,
    /// How well learners are told apart.
    pub spread: Spread,
    /// Twice the log likelihood, turned around: less is better.
    pub deviance: f64,
    /// Rounds that the fit took.
    pub rounds: usize,
}

/// What the fit has come to.
pub(super) struct State {
    /// The ratings that it rests on: not those of learners with all or nothing.
    pub(super) ratings: Vec<Rating>,
    /// Parameters by facet.
    pub(super) places: [Vec<f64>; 3],
    /// One for each level above 0.
    pub(super) steps: Vec<f64>,
}

/// What one rating was expected to be.
pub(super) struct Expected {
    /// Its mean.
    pub(super) mean: f64,
    /// Its variance.
    pub(super) variance: f64,
    /// The probability of each level.
    pub(super) levels: Vec<f64>,
}

/// Fits the model. Learners who were given the highest level each time, or the lowest, tell
/// nothing of criteria and examiners; they are placed by them afterwards.
///
/// *Errors:* a design that falls apart ([`Design::subsets`] names its parts), a level that
/// nobody gave, a criterion or an examiner who gave only the highest or only the lowest
/// level, or no end of the search.
pub fn severity(design: &Design) -> Result<Severity, Lacking> {
    if !design.subsets().is_empty() {
        return Err(Lacking::Apart("the ratings"));
    }
    let extreme = extreme(design);
    let ratings = design.ratings().iter().copied();
    let mut state = State {
        ratings: ratings
            .filter(|one| !extreme.contains_key(&one.learner))
            .collect(),
        places: design.counts().map(|many| vec![0.0; many]),
        steps: vec![0.0; design.levels() - 1],
    };
    let given = levels_given(&state.ratings, design.levels())?;
    let sums = state.sums(design.levels() - 1)?;
    let mut rounds = 0;
    while state.round(&sums, &given) > CLOSE {
        rounds += 1;
        if rounds == ROUNDS {
            return Err(Lacking::NotFound(
                "the places of learners, criteria and examiners",
            ));
        }
    }
    for (learner, sum) in extreme {
        state.place_extreme(design, learner, sum);
    }
    state.centre();
    let [learners, criteria, examiners] = Facet::ALL.map(|facet| elements(&state, design, facet));
    Ok(Severity {
        spread: spread(&learners),
        learners,
        criteria,
        examiners,
        deviance: state.deviance(),
        steps: state.steps,
        rounds,
    })
}

/// Learners with the highest level each time, or the lowest, and the sum that they are placed
/// by.
fn extreme(design: &Design) -> BTreeMap<usize, f64> {
    let highest = number(design.levels() - 1);
    let mut sums: BTreeMap<usize, (f64, f64)> = BTreeMap::new();
    for rating in design.ratings() {
        let (sum, most) = sums.entry(rating.learner).or_default();
        *sum += number(rating.level);
        *most += highest;
    }
    let extreme = sums
        .into_iter()
        .filter(|(_, (sum, most))| *sum <= 0.0 || sum >= most);
    extreme
        .map(|(learner, (sum, most))| (learner, sum.clamp(EXTREME, most - EXTREME)))
        .collect()
}

/// How often each level was given.
fn levels_given(ratings: &[Rating], levels: usize) -> Result<Vec<f64>, Lacking> {
    let mut given = vec![0.0; levels];
    for rating in ratings {
        if let Some(own) = given.get_mut(rating.level) {
            *own += 1.0;
        }
    }
    if given.iter().any(|own| *own <= 0.0) {
        return Err(Lacking::NoSpread("the levels: one was never given"));
    }
    Ok(given)
}

impl State {
    /// What each element was given in all.
    fn sums(&self, highest: usize) -> Result<[Vec<f64>; 3], Lacking> {
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
    fn place_extreme(&mut self, design: &Design, learner: usize, sum: f64) {
        for _ in 0..ROUNDS {
            let own = design.ratings().iter().filter(|one| one.learner == learner);
            let expected: Vec<Expected> = own.map(|one| self.expected(one)).collect();
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
    fn round(&mut self, sums: &[Vec<f64>; 3], given: &[f64]) -> f64 {
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
        for rating in &self.ratings {
            let found = self.expected(rating);
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
        for rating in &self.ratings {
            let found = self.expected(rating).levels;
            for (own, probability) in expected.iter_mut().zip(found) {
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

    /// What a rating was expected to be.
    pub(super) fn expected(&self, rating: &Rating) -> Expected {
        let at = self.place(rating);
        let mut logits = vec![0.0];
        let mut sum = 0.0f64;
        for step in &self.steps {
            sum += at - step;
            logits.push(sum);
        }
        let highest = logits.iter().copied().fold(0.0, f64::max);
        let weights: Vec<f64> = logits.iter().map(|one| (one - highest).exp()).collect();
        let all: f64 = weights.iter().sum();
        let levels: Vec<f64> = weights.into_iter().map(|weight| weight / all).collect();
        let mean: f64 = (0..)
            .zip(&levels)
            .map(|(level, share)| number(level) * share)
            .sum();
        let off = (0..).zip(&levels);
        let variance = off
            .map(|(level, share)| (number(level) - mean).powi(2) * share)
            .sum();
        Expected {
            mean,
            variance,
            levels,
        }
    }

    fn place(&self, rating: &Rating) -> f64 {
        let [learners, criteria, examiners] = &self.places;
        let at = |places: &[f64], which: usize| places.get(which).copied().unwrap_or_default();
        at(learners, rating.learner)
            - at(criteria, rating.criterion)
            - at(examiners, rating.examiner)
    }

    /// Moves the means of criteria, examiners and steps into the learners.
    fn centre(&mut self) {
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

    fn deviance(&self) -> f64 {
        let ratings = self.ratings.iter();
        let logs = ratings.map(|rating| {
            let levels = self.expected(rating).levels;
            levels.get(rating.level).map_or(0.0, |share| share.ln())
        });
        -2.0 * logs.sum::<f64>()
    }
}
