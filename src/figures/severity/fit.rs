use std::collections::BTreeMap;

use super::design::{Design, Facet, Rating};
use super::model::{CLOSE, ROUNDS, State};
use super::quality::{Element, Spread, elements, spread};
use crate::figures::Lacking;
use crate::figures::numbers::number;

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
    let rounds = (1..=ROUNDS).find(|_| state.round(&sums, &given) <= CLOSE);
    let places = "the places of learners, criteria and examiners";
    let rounds = rounds.ok_or(Lacking::NotFound(places))?;
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
