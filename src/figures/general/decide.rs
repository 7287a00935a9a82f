//! Decision studies: what other numbers of examiners, criteria or tasks would give.

use serde::Serialize;

use super::super::Lacking;
use super::super::numbers::number;
use super::components::Components;
use super::design::Effect;

/// The most rows of a table of decisions.
const MOST: usize = 100_000;

/// How many levels of a facet a result is to be averaged over.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Planned {
    /// The facet's letter.
    pub letter: char,
    /// How many levels there will be; of a facet within others, in each of them.
    pub levels: usize,
    /// Whether just these levels are meant, as the criteria of one rubric, and not levels
    /// that stand for others like them.
    pub is_fixed: bool,
}

/// The numbers of levels of a facet to look at.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Choice {
    /// The facet's letter.
    pub letter: char,
    /// The numbers to look at.
    pub levels: Vec<usize>,
    /// As in [`Planned`].
    pub is_fixed: bool,
}

/// What a plan comes to.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Decision {
    /// The plan.
    pub plan: Vec<Planned>,
    /// Variance of universe scores: of true differences between what is measured.
    pub universe: f64,
    /// Variance of relative error, which moves one against another: sigma^2(delta).
    pub relative_error: f64,
    /// Variance of absolute error, which moves one against a pass mark: sigma^2(Delta).
    pub absolute_error: f64,
    /// Generalizability coefficient: `universe / (universe + relative_error)`.
    pub g: f64,
    /// Index of dependability: `universe / (universe + absolute_error)`.
    pub phi: f64,
}

/// Which coefficient is asked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub enum Coefficient {
    /// G: for ranking.
    Relative,
    /// Phi: for a pass mark.
    Absolute,
}

impl Components {
    /// What a result averaged over the levels of `plan` comes to, where `object` is what is
    /// measured. Negative components count as 0.
    ///
    /// An effect's variance is divided by the planned numbers of its facets other than the
    /// object. It belongs to the universe score where it has the object and no random facet,
    /// to the absolute error where it has a random facet, and to the relative error too
    /// where it has both (Brennan 2001, 4.1 and 4.3, and 5.1 for fixed facets).
    ///
    /// # Errors
    ///
    /// An unknown letter, an object that stands within another facet, a plan that does not
    /// name every other facet once, a plan of no levels or without a random facet, and
    /// components without a true difference or an error.
    pub fn decide(&self, object: char, plan: &[Planned]) -> Result<Decision, Lacking> {
        let object = self.design.bit(object)?;
        if self.design.stands_within(object) {
            return Err(Lacking::Design("what is measured stands within a facet"));
        }
        let known = self.known(object, plan)?;
        let (mut universe, mut relative_error, mut absolute_error) = (0.0, 0.0, 0.0);
        for part in &self.parts {
            let own = known.iter().filter(|(bit, _)| bit & part.effect != 0);
            let times: f64 = own.clone().map(|(_, one)| number(one.levels)).product();
            let share = part.floored() / times;
            let mut own = own;
            let is_random = own.any(|(_, one)| !one.is_fixed);
            let has_object = part.effect & object != 0;
            match (is_random, has_object) {
                (true, true) => {
                    relative_error += share;
                    absolute_error += share;
                }
                (true, false) => absolute_error += share,
                (false, true) => universe += share,
                // The same for all that are measured by these very levels.
                (false, false) => {}
            }
        }
        if universe + relative_error <= 0.0 {
            return Err(Lacking::NoSpread("true scores"));
        }
        Ok(Decision {
            plan: plan.to_vec(),
            universe,
            relative_error,
            absolute_error,
            g: universe / (universe + relative_error),
            phi: universe / (universe + absolute_error),
        })
    }

    /// A table of every combination of `choices`, the last changing fastest.
    ///
    /// # Errors
    ///
    /// Those of [`Components::decide`], no combination, or more than 100 000.
    pub fn decisions(&self, object: char, choices: &[Choice]) -> Result<Vec<Decision>, Lacking> {
        let rows = choices.iter().map(|choice| choice.levels.len());
        let rows = rows.fold(1, usize::saturating_mul);
        if rows == 0 || rows > MOST {
            return Err(Lacking::Design("a table of 1 to 100 000 rows"));
        }
        let mut plans: Vec<Vec<Planned>> = vec![Vec::new()];
        for choice in choices {
            let with = |plan: Vec<Planned>| {
                choice.levels.iter().map(move |levels| {
                    let planned = Planned {
                        letter: choice.letter,
                        levels: *levels,
                        is_fixed: choice.is_fixed,
                    };
                    plan.iter().cloned().chain([planned]).collect()
                })
            };
            plans = plans.into_iter().flat_map(with).collect();
        }
        plans.iter().map(|plan| self.decide(object, plan)).collect()
    }

    /// The planned facets with their bits, checked.
    fn known<'p>(
        &self,
        object: Effect,
        plan: &'p [Planned],
    ) -> Result<Vec<(Effect, &'p Planned)>, Lacking> {
        let mut seen = object;
        let mut known = Vec::new();
        for planned in plan {
            let bit = self.design.bit(planned.letter)?;
            if seen & bit != 0 {
                return Err(Lacking::Design("a plan names each other facet once"));
            }
            if planned.levels == 0 {
                return Err(Lacking::Design("a plan has a level of each facet"));
            }
            seen |= bit;
            known.push((bit, planned));
        }
        if known.len() + 1 != self.design.facets().len() {
            return Err(Lacking::Design("a plan names each other facet once"));
        }
        if plan.iter().all(|planned| planned.is_fixed) {
            return Err(Lacking::Design("a plan has a facet that is not fixed"));
        }
        Ok(known)
    }
}

/// Of a table the plans that reach `wanted` and are not more of one facet and no fewer of
/// any other than another that reaches it: the least numbers, one row for each way.
///
/// # Errors
///
/// `wanted` outside 0 to 1, or no row that reaches it.
pub fn least(
    table: &[Decision],
    wanted: f64,
    coefficient: Coefficient,
) -> Result<Vec<&Decision>, Lacking> {
    if !(wanted > 0.0 && wanted < 1.0) {
        return Err(Lacking::NotANumber("the wanted reliability"));
    }
    let reaches = |row: &&Decision| match coefficient {
        Coefficient::Relative => row.g >= wanted,
        Coefficient::Absolute => row.phi >= wanted,
    };
    let mut rows: Vec<&Decision> = table.iter().filter(reaches).collect();
    // Fewer levels in all first: only those can make a later row needless.
    rows.sort_by_key(|row| levels(row).sum::<usize>());
    let mut kept: Vec<&Decision> = Vec::new();
    for row in rows {
        let is_more = |other: &&Decision| levels(other).zip(levels(row)).all(|(a, b)| a <= b);
        if !kept.iter().any(is_more) {
            kept.push(row);
        }
    }
    if kept.is_empty() {
        return Err(Lacking::NotFound(
            "a plan that reaches the wanted reliability",
        ));
    }
    Ok(kept)
}

fn levels(row: &Decision) -> impl Iterator<Item = usize> + '_ {
    row.plan.iter().map(|planned| planned.levels)
}
