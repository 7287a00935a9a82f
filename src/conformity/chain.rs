use rustc_hash::FxHashMap;

use super::key::Key;
use super::spread::MOST_STATES;

/// Units one after another, with every state that their ways can lead to.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Chain {
    steps: Vec<Step>,
    /// What the whole chain can come to.
    pub states: Vec<Key>,
}

/// One unit more.
#[derive(Debug, Clone, PartialEq)]
struct Step {
    /// Its place in the cluster.
    unit: usize,
    ways: usize,
    /// Where each way leads from each state: state times `ways` plus way.
    next: Vec<usize>,
    states: usize,
}

impl Chain {
    /// Adds the units at these places to `states`, where `keys` are those of the ways of
    /// each unit of the cluster; `None` where there are too many states.
    pub fn of(
        mut states: Vec<Key>,
        units: impl IntoIterator<Item = usize>,
        keys: &[Vec<Key>],
    ) -> Option<Self> {
        let mut steps = Vec::new();
        for unit in units {
            let ways = keys.get(unit)?;
            let mut known: FxHashMap<Key, usize> = FxHashMap::default();
            let mut reached = Vec::new();
            let mut next = Vec::with_capacity(states.len() * ways.len());
            for state in &states {
                for way in ways {
                    let to = state.plus(*way);
                    let at = *known.entry(to).or_insert_with(|| {
                        reached.push(to);
                        reached.len() - 1
                    });
                    next.push(at);
                }
            }
            if reached.len() > MOST_STATES {
                return None;
            }
            steps.push(Step {
                unit,
                ways: ways.len(),
                next,
                states: reached.len(),
            });
            states = reached;
        }
        Some(Self { steps, states })
    }

    /// How many steps from state to state it takes to run.
    pub fn work(&self) -> usize {
        self.steps.iter().map(|step| step.next.len()).sum()
    }

    /// The probability of each state of the chain, from those of the states that it began
    /// with, where `chances` gives those of the ways of each unit of the cluster.
    pub fn run(&self, from: &[f64], chances: &[Vec<f64>]) -> Vec<f64> {
        let mut now = from.to_vec();
        for step in &self.steps {
            let mut then = vec![0.0; step.states];
            let ways = chances.get(step.unit).map_or(&[][..], Vec::as_slice);
            for (from, nexts) in now.iter().zip(step.next.chunks(step.ways.max(1))) {
                if *from == 0.0 {
                    continue;
                }
                for (way, to) in ways.iter().zip(nexts) {
                    if let Some(sum) = then.get_mut(*to) {
                        *sum += from * way;
                    }
                }
            }
            now = then;
        }
        now
    }
}
