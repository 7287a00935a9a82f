use rand_distr::{Distribution, StandardNormal, StandardUniform};
use rand_pcg::Pcg64Mcg;

use super::entry::Limited;
use super::key::Key;
use super::node::Node;
use super::solve::Task;
use super::spread::Spread;

/// How many draws are made.
pub(super) const DRAWS: u32 = 200_000;
/// The seed is fixed, so that two devices say the same of one marking.
const SEED: u128 = 0xe7e5_40d0_0000_0000_0000_0000_0000_0001;

/// The ways that the units of one cluster took in each draw.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Drawn {
    units: usize,
    ways: Vec<u16>,
}

impl Drawn {
    /// Draws every reading of the cluster, own and shared parts, and looks where its
    /// entries come out (JCGM 101:2008, 5.9 and 7: propagation of distributions).
    pub fn of(task: &Task<'_>) -> Self {
        let variables = task.variables;
        let middle = Node::middle(task.cluster, variables);
        let fixed: Vec<Option<Limited>> = task
            .entries
            .iter()
            .map(|entry| entry.basis().is_empty().then(|| middle.limits(entry)))
            .collect();
        let mut needed: Vec<usize> = task
            .entries
            .iter()
            .flat_map(|entry| [entry.value.variables(), entry.basis()].concat())
            .collect();
        needed.sort_unstable();
        needed.dedup();
        let places: Vec<Vec<Option<usize>>> = task
            .units
            .iter()
            .map(|unit| {
                let place = |index: &usize| {
                    let mut entries = task.cluster.entries.iter();
                    entries.position(|known| known == index)
                };
                unit.members.iter().map(place).collect()
            })
            .collect();
        let mut random = Pcg64Mcg::new(SEED);
        let mut values: Vec<f64> = variables.all.iter().map(|variable| variable.mean).collect();
        let mut parts = vec![0.0; variables.parts.len()];
        let mut outcomes = vec![0_usize; task.entries.len()];
        let mut ways = Vec::new();
        for _ in 0..DRAWS {
            for part in &mut parts {
                *part = StandardNormal.sample(&mut random);
            }
            for index in &needed {
                let (Some(value), Some(variable)) =
                    (values.get_mut(*index), variables.all.get(*index))
                else {
                    continue;
                };
                let own: f64 = StandardNormal.sample(&mut random);
                *value = variable.mean + variable.own * own;
                if variable.half > 0.0 {
                    let even: f64 = StandardUniform.sample(&mut random);
                    *value += variable.half * (2.0 * even - 1.0);
                }
                for (part, size) in &variable.shared {
                    *value += size * parts.get(*part).copied().unwrap_or(0.0);
                }
            }
            let of = |index: usize| values.get(index).copied().unwrap_or(0.0);
            for ((entry, fixed), outcome) in task.entries.iter().zip(&fixed).zip(&mut outcomes) {
                let value = entry.value.at(&of);
                *outcome = match fixed {
                    Some(limited) => entry.outcome_at(limited, value),
                    None => entry.outcome_at(&entry.limits(&of), value),
                };
            }
            for (unit, places) in task.units.iter().zip(&places) {
                let mut stride = 1;
                let mut way = 0;
                for (place, count) in places.iter().zip(&unit.counts) {
                    let digit = place.and_then(|at| outcomes.get(at)).copied();
                    way += stride * digit.unwrap_or(0);
                    stride *= count;
                }
                ways.push(u16::try_from(way).unwrap_or(0));
            }
        }
        Self {
            units: task.units.len(),
            ways,
        }
    }

    /// Each draw: the way of every unit.
    pub fn all(&self) -> impl Iterator<Item = &[u16]> {
        self.ways.chunks(self.units.max(1))
    }

    /// What each draw comes to, `keys` being those of the ways of each unit.
    pub fn states(&self, keys: &[Vec<Key>]) -> Spread {
        Spread::of(self.all().map(|chosen| {
            let ways = keys.iter().zip(chosen);
            let ways = ways.filter_map(|(keys, way)| keys.get(usize::from(*way)).copied());
            (ways.fold(Key::default(), Key::plus), self.share())
        }))
    }

    /// What one draw counts.
    pub fn share(&self) -> f64 {
        1.0 / f64::from(DRAWS)
    }
}
