use std::collections::HashMap;

use super::units::{Unit, Way};

/// What some units come to together.
#[derive(Debug, Clone, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub(super) struct State {
    /// Sums of the sections that are reached, in units of the lattice.
    pub sums: Vec<i64>,
    pub stops: bool,
    pub warnings: u32,
}

impl State {
    /// Both together; their sums are those of the same sections.
    pub fn plus(&self, other: &Self) -> Self {
        let sums = self.sums.iter().zip(&other.sums);
        Self {
            sums: sums.map(|(a, b)| a + b).collect(),
            stops: self.stops || other.stops,
            warnings: self.warnings.saturating_add(other.warnings),
        }
    }
}

/// More states than this are not kept apart.
const MOST_STATES: usize = 200_000;

/// Units one after another, with every state that their ways can lead to.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Chain {
    /// Sections whose sums the states hold.
    pub sections: Vec<usize>,
    /// Places of the units in the cluster, in the order of the chain.
    pub order: Vec<usize>,
    steps: Vec<Step>,
    /// What the whole chain can come to.
    pub states: Vec<State>,
}

#[derive(Debug, Clone, PartialEq)]
struct Step {
    ways: usize,
    /// Where each way leads from each state: state times `ways` plus way.
    next: Vec<usize>,
    states: usize,
}

impl Chain {
    /// Joins `units` in `order`; `None` where there are too many states.
    pub fn of(units: &[Unit], order: Vec<usize>) -> Option<Self> {
        let mut sections: Vec<usize> = units
            .iter()
            .flat_map(|unit| unit.ways.iter().flat_map(|way| way.sums.iter()))
            .map(|(section, _)| *section)
            .collect();
        sections.sort_unstable();
        sections.dedup();
        let mut states = vec![State {
            sums: vec![0; sections.len()],
            stops: false,
            warnings: 0,
        }];
        let mut steps = Vec::new();
        for at in &order {
            let unit = units.get(*at)?;
            let mut known: HashMap<State, usize> = HashMap::new();
            let mut reached = Vec::new();
            let mut next = Vec::new();
            for state in &states {
                for way in &unit.ways {
                    let to = after(state, way, &sections);
                    let index = *known.entry(to).or_insert_with_key(|to| {
                        reached.push(to.clone());
                        reached.len() - 1
                    });
                    next.push(index);
                }
            }
            if reached.len() > MOST_STATES {
                return None;
            }
            steps.push(Step {
                ways: unit.ways.len(),
                next,
                states: reached.len(),
            });
            states = reached;
        }
        Some(Self {
            sections,
            order,
            steps,
            states,
        })
    }

    /// The probability of each state, where `chances` gives those of the ways of each unit
    /// of the cluster.
    pub fn run(&self, chances: &[Vec<f64>]) -> Vec<f64> {
        self.run_until(self.steps.len(), chances)
    }

    /// As [`Self::run`], before the last unit of the chain.
    pub fn run_before_last(&self, chances: &[Vec<f64>]) -> Vec<f64> {
        self.run_until(self.steps.len().saturating_sub(1), chances)
    }

    fn run_until(&self, count: usize, chances: &[Vec<f64>]) -> Vec<f64> {
        let mut now = vec![1.0];
        for (at, step) in self.order.iter().zip(&self.steps).take(count) {
            let mut then = vec![0.0; step.states];
            let ways = chances.get(*at).map_or(&[][..], Vec::as_slice);
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

    /// The state that the chosen way of each unit of the cluster leads to.
    pub fn follow(&self, chosen: &dyn Fn(usize) -> usize) -> usize {
        let mut now = 0;
        for (at, step) in self.order.iter().zip(&self.steps) {
            now = step
                .next
                .get(now * step.ways + chosen(*at))
                .copied()
                .unwrap_or(0);
        }
        now
    }

    /// Where the last unit's `way` leads from the state at `from` before it.
    pub fn last(&self, from: usize, way: usize) -> usize {
        let step = self.steps.last();
        let to = step.and_then(|step| step.next.get(from * step.ways + way));
        to.copied().unwrap_or(0)
    }
}

fn after(state: &State, way: &Way, sections: &[usize]) -> State {
    let mut to = state.clone();
    for (section, units) in &way.sums {
        let place = sections.iter().position(|known| known == section);
        if let Some(sum) = place.and_then(|at| to.sums.get_mut(at)) {
            *sum += units;
        }
    }
    to.stops |= way.stops;
    to.warnings = to.warnings.saturating_add(way.warnings);
    to
}
