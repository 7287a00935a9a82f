use std::cell::OnceCell;

use rand_distr::{Distribution, StandardNormal, StandardUniform};
use rand_xoshiro::Xoshiro256PlusPlus;
use rand_xoshiro::rand_core::SeedableRng as _;
use rustc_hash::FxHashMap;

use super::apart::Apart;
use super::counts::counted;
use super::entry::{Limited, MeasuredEntry};
use super::key::Key;
use super::node::Node;
use super::solve::Task;
use super::spread::Spread;
use super::value::Value;
use super::variable::Variable;

/// How many draws are made.
pub(super) const DRAWS: u32 = 200_000;
/// So many are made side by side, in as many rounds as it takes: what they hold stays near.
const SIDE_BY_SIDE: usize = 1000;
const ROUNDS: u32 = 200;
/// The seed is fixed, so that two devices say the same of one marking. The generator gives 64
/// bits at once and multiplies nothing, which is quick in a browser too.
const SEED: u64 = 0xe7e5_40d0_0000_0001;

/// The ways that the units of one cluster took in each draw: unit by unit.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Drawn {
    ways: Vec<Vec<u16>>,
    /// What each draw comes to, once asked for.
    totals: OnceCell<Vec<Total>>,
}

impl Drawn {
    /// Draws every reading of the cluster, own and shared parts, and looks where its
    /// entries come out (JCGM 101:2008, 5.9 and 7: propagation of distributions).
    pub fn of(task: &Task<'_>) -> Self {
        let mut round = Round::of(task);
        let mut units: Vec<Vec<u16>> = vec![Vec::new(); task.units.len()];
        for _ in 0..ROUNDS {
            round.draw();
            for (unit, ways) in task.units.iter().zip(&mut units) {
                let from = ways.len();
                ways.resize(from + SIDE_BY_SIDE, 0);
                let own = ways.get_mut(from..).unwrap_or_default();
                let mut stride = 1;
                for (index, count) in unit.members.iter().zip(&unit.counts) {
                    let outcomes = round.outcomes(*index);
                    for (way, outcome) in own.iter_mut().zip(outcomes) {
                        *way += stride * outcome;
                    }
                    stride *= u16::try_from(*count).unwrap_or(1);
                }
            }
        }
        Self {
            ways: units,
            totals: OnceCell::new(),
        }
    }

    /// The probability of each of the ways of a unit that has so many.
    pub fn ways(&self, unit: usize, count: usize) -> Vec<f64> {
        let mut times = vec![0_u32; count];
        for way in self.ways.get(unit).into_iter().flatten() {
            if let Some(times) = times.get_mut(usize::from(*way)) {
                *times += 1;
            }
        }
        times.into_iter().map(share).collect()
    }

    /// What the draws come to, `keys` being those of the ways of each unit.
    pub fn states(&self, keys: &[Vec<Key>]) -> Spread {
        let totals = self.totals(keys).iter();
        let states = totals.map(|total| (Key::new(total.digits, total.stops > 0), 0));
        let Apart { rest, chances } = counted(most_digits(keys), 1, states);
        Spread::of(rest.into_iter().zip(chances))
    }

    /// The units at `asked`, each apart from the others.
    pub fn apart(&self, keys: &[Vec<Key>], asked: &[usize]) -> FxHashMap<usize, Apart> {
        let totals = self.totals(keys);
        let most = most_digits(keys);
        let one = |unit: &usize| {
            let own = keys.get(*unit)?;
            let drawn = totals.iter().zip(self.ways.get(*unit)?);
            let apart = drawn.map(|(total, way)| {
                let way = usize::from(*way);
                let key = own.get(way).copied().unwrap_or_default();
                let digits = total.digits - key.digits();
                let others_stop = total.stops > u32::from(key.stops());
                (Key::new(digits, others_stop), way)
            });
            Some((*unit, counted(most, own.len(), apart)))
        };
        asked.iter().filter_map(one).collect()
    }

    /// What each draw comes to.
    fn totals(&self, keys: &[Vec<Key>]) -> &[Total] {
        self.totals.get_or_init(|| {
            let draws = self.ways.first().map_or(0, Vec::len);
            let mut totals = vec![Total::default(); draws];
            for (ways, keys) in self.ways.iter().zip(keys) {
                for (total, way) in totals.iter_mut().zip(ways) {
                    let key = keys.get(usize::from(*way)).copied().unwrap_or_default();
                    total.digits += key.digits();
                    total.stops += u32::from(key.stops());
                }
            }
            totals
        })
    }
}

/// The digits of all units of one draw, and how many of them stop.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
struct Total {
    digits: u64,
    stops: u32,
}

/// A number of draws as a share of all.
pub(super) fn share(times: u32) -> f64 {
    f64::from(times) / f64::from(DRAWS)
}

fn most_digits(keys: &[Vec<Key>]) -> u64 {
    let most = |ways: &Vec<Key>| ways.iter().map(|key| key.digits()).max();
    keys.iter().filter_map(most).sum()
}

/// Draws side by side.
struct Round<'t> {
    task: &'t Task<'t>,
    random: Xoshiro256PlusPlus,
    /// The readings that are needed, by index, and what they share.
    needed: Vec<usize>,
    parts: Vec<Vec<f64>>,
    /// Of each reading its values; none of one that is not needed.
    values: Vec<Vec<f64>>,
    /// Of each entry, where its limits do not depend on readings.
    fixed: Vec<Option<Limited>>,
    outcomes: Vec<Vec<u16>>,
}

impl<'t> Round<'t> {
    fn of(task: &'t Task<'t>) -> Self {
        let variables = task.variables;
        let middle = Node::middle(task.cluster, variables);
        let fixed = |entry: &&MeasuredEntry| {
            let limited = entry.basis().is_empty().then(|| middle.limits(entry))?;
            let single = match entry.value {
                Value::Single(index) => variables.all.get(index),
                _ => None,
            };
            Some(match single.map(Variable::ends) {
                Some((low, high)) => limited.between(low, high),
                None => limited,
            })
        };
        let entries = task.entries.iter();
        let used = entries.flat_map(|entry| [entry.value.variables(), entry.basis()].concat());
        let mut needed: Vec<usize> = used.collect();
        needed.sort_unstable();
        needed.dedup();
        Self {
            random: Xoshiro256PlusPlus::seed_from_u64(SEED),
            needed,
            parts: vec![vec![0.0; SIDE_BY_SIDE]; variables.parts.len()],
            values: vec![Vec::new(); variables.all.len()],
            fixed: task.entries.iter().map(fixed).collect(),
            outcomes: vec![vec![0; SIDE_BY_SIDE]; task.entries.len()],
            task,
        }
    }

    fn draw(&mut self) {
        for part in self.parts.iter_mut().flatten() {
            *part = StandardNormal.sample(&mut self.random);
        }
        for index in &self.needed {
            let variable = self.task.variables.all.get(*index);
            if let (Some(variable), Some(values)) = (variable, self.values.get_mut(*index)) {
                draw_reading(variable, &self.parts, &mut self.random, values);
            }
        }
        let entries = self.task.entries.iter().zip(&self.fixed);
        for ((entry, fixed), outcomes) in entries.zip(&mut self.outcomes) {
            find_outcomes(entry, fixed.as_ref(), &self.values, outcomes);
        }
    }

    /// What an entry came to in each draw; nothing of one that is not uncertain.
    fn outcomes(&self, index: usize) -> &[u16] {
        let mut entries = self.task.cluster.entries.iter();
        let at = entries.position(|known| *known == index);
        let outcomes = at.and_then(|at| self.outcomes.get(at));
        outcomes.map_or(&[], Vec::as_slice)
    }
}

fn draw_reading(
    variable: &Variable,
    parts: &[Vec<f64>],
    random: &mut Xoshiro256PlusPlus,
    values: &mut Vec<f64>,
) {
    values.clear();
    values.resize(SIDE_BY_SIDE, variable.mean);
    if variable.own > 0.0 {
        for value in values.iter_mut() {
            let own: f64 = StandardNormal.sample(random);
            *value += variable.own * own;
        }
    }
    if variable.half > 0.0 {
        for value in values.iter_mut() {
            let even: f64 = StandardUniform.sample(random);
            *value += variable.half * (2.0 * even - 1.0);
        }
    }
    for (part, size) in &variable.shared {
        let drawn = parts.get(*part).map_or(&[][..], Vec::as_slice);
        for (value, part) in values.iter_mut().zip(drawn) {
            *value += size * part;
        }
    }
}

fn find_outcomes(
    entry: &MeasuredEntry,
    fixed: Option<&Limited>,
    values: &[Vec<f64>],
    outcomes: &mut [u16],
) {
    let of = |index: usize| values.get(index).map_or(&[][..], Vec::as_slice);
    let values = entry.value.column(&of).values(outcomes.len());
    // With fixed limits a single reading is what is uncertain.
    match (&entry.value, fixed) {
        (Value::Single(_), Some(limited)) => entry.outcomes_at(limited, &values, outcomes),
        _ => entry.outcomes_beside(&of, &values, outcomes),
    }
}
