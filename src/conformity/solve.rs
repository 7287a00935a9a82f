use std::collections::{BTreeMap, HashMap};

use super::chain::{Chain, State};
use super::cluster::Cluster;
use super::draws::Drawn;
use super::entry::{Limited, MeasuredEntry};
use super::node::Node;
use super::quadrature::Plan;
use super::units::Unit;
use super::variable::Variables;

/// One cluster with all that it takes to work it out.
pub(super) struct Task<'a> {
    pub cluster: &'a Cluster,
    /// Its entries, in the cluster's order.
    pub entries: Vec<&'a MeasuredEntry>,
    /// The units that hold them.
    pub units: Vec<Unit>,
    pub variables: &'a Variables,
}

/// A cluster worked out.
pub(super) struct Solved {
    /// Sections whose sums the states hold.
    pub sections: Vec<usize>,
    pub states: Vec<State>,
    /// Probability of each state.
    pub chances: Vec<f64>,
    /// Probability of each way of each unit.
    pub ways: Vec<Vec<f64>>,
    pub by: By,
}

/// How a cluster was worked out.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum By {
    Closed(Plan),
    Draws(Drawn),
}

/// What is with the true outcome of one entry and what would be with the given one, and
/// how probable it is that these two differ so: state and state.
pub(super) type Changes = BTreeMap<(usize, usize), f64>;

impl Task<'_> {
    /// Works the cluster out; `None` where it has too many states.
    pub fn solve(&self) -> Option<Solved> {
        let chain = Chain::of(&self.units, (0..self.units.len()).collect())?;
        let mut chances = vec![0.0; chain.states.len()];
        let mut ways: Vec<Vec<f64>> = self
            .units
            .iter()
            .map(|unit| vec![0.0; unit.ways.len()])
            .collect();
        let by = match Plan::of(self.cluster, &self.entries, self.variables) {
            Some(plan) => {
                let mut whole = 0.0;
                self.visit(&plan, &mut |weight, here| {
                    whole += weight;
                    add(&mut chances, weight, &chain.run(here));
                    for (sums, here) in ways.iter_mut().zip(here) {
                        add(sums, weight, here);
                    }
                });
                normalise(&mut chances, whole);
                ways.iter_mut().for_each(|sums| normalise(sums, whole));
                By::Closed(plan)
            }
            None => {
                let drawn = Drawn::of(self);
                let share = drawn.share();
                for chosen in drawn.all() {
                    let way = |at: usize| chosen.get(at).copied().map_or(0, usize::from);
                    bump(&mut chances, chain.follow(&way), share);
                    for (at, sums) in ways.iter_mut().enumerate() {
                        bump(sums, way(at), share);
                    }
                }
                By::Draws(drawn)
            }
        };
        Some(Solved {
            sections: chain.sections,
            states: chain.states,
            chances,
            ways,
            by,
        })
    }

    /// What the entry at `at` of the cluster changes, by the states of `solved`; `None`
    /// where there are too many.
    pub fn changes(&self, at: usize, solved: &Solved) -> Option<Changes> {
        let (unit, member) = self.member(at)?;
        let mut order: Vec<usize> = (0..self.units.len())
            .filter(|other| *other != unit)
            .collect();
        order.push(unit);
        let chain = Chain::of(&self.units, order)?;
        let given = self.given_ways(unit, member, self.entries.get(at)?.given)?;
        let mut changes = Changes::new();
        let mut change = |from: usize, way: usize, chance: f64| {
            let counter = given.get(way).copied().unwrap_or(way);
            let both = (chain.last(from, way), chain.last(from, counter));
            if both.0 != both.1 && chance > 0.0 {
                *changes.entry(both).or_insert(0.0) += chance;
            }
        };
        match &solved.by {
            By::Closed(plan) => {
                let mut whole = 0.0;
                self.visit(plan, &mut |weight, here| {
                    whole += weight;
                    let before = chain.run_before_last(here);
                    let ways = here.get(unit).map_or(&[][..], Vec::as_slice);
                    for (from, chance) in before.iter().enumerate().filter(|(_, c)| **c > 0.0) {
                        for (way, of_way) in ways.iter().enumerate() {
                            change(from, way, weight * chance * of_way);
                        }
                    }
                });
                changes.values_mut().for_each(|chance| *chance /= whole);
            }
            By::Draws(drawn) => {
                for chosen in drawn.all() {
                    let way = |at: usize| chosen.get(at).copied().map_or(0, usize::from);
                    let counter = given.get(way(unit)).copied().unwrap_or(way(unit));
                    let with = |at: usize| if at == unit { counter } else { way(at) };
                    let both = (chain.follow(&way), chain.follow(&with));
                    if both.0 != both.1 {
                        *changes.entry(both).or_insert(0.0) += drawn.share();
                    }
                }
            }
        }
        self.in_states_of(solved, &chain, changes)
    }

    /// The same changes with the states of another order of the units.
    fn in_states_of(&self, solved: &Solved, chain: &Chain, changes: Changes) -> Option<Changes> {
        let places: HashMap<&State, usize> = solved
            .states
            .iter()
            .enumerate()
            .map(|(at, state)| (state, at))
            .collect();
        let place = |at: usize| places.get(chain.states.get(at)?).copied();
        let changes = changes.into_iter();
        changes
            .map(|((a, b), chance)| Some(((place(a)?, place(b)?), chance)))
            .collect()
    }

    /// Unit and place in it of the entry at `at` of the cluster.
    pub fn member(&self, at: usize) -> Option<(usize, usize)> {
        let index = self.cluster.entries.get(at)?;
        self.units.iter().enumerate().find_map(|(unit, known)| {
            let member = known.members.iter().position(|member| member == index)?;
            Some((unit, member))
        })
    }

    /// The unit of the entry at `at` of the cluster.
    pub fn unit_of(&self, at: usize) -> Option<&Unit> {
        let (unit, _) = self.member(at)?;
        self.units.get(unit)
    }

    /// For each way of a unit the one in which a member has the given outcome.
    fn given_ways(&self, unit: usize, member: usize, given: usize) -> Option<Vec<usize>> {
        let unit = self.units.get(unit)?;
        let count = (*unit.counts.get(member)?).max(1);
        let stride: usize = unit.counts.iter().take(member).product();
        let ways = (0..unit.ways.len()).map(|way| {
            let digit = way / stride % count;
            way - digit * stride + given * stride
        });
        Some(ways.collect())
    }

    /// Visits every node with its weight and the chances of the ways of each unit there.
    fn visit(&self, plan: &Plan, visit: &mut dyn FnMut(f64, &[Vec<f64>])) {
        let middle = Node::middle(self.cluster, self.variables);
        let fixed: Vec<Option<Limited>> = self
            .entries
            .iter()
            .map(|entry| entry.basis().is_empty().then(|| middle.limits(entry)))
            .collect();
        let mut outcomes: Vec<Vec<f64>> = vec![Vec::new(); self.entries.len()];
        let mut ways: Vec<Vec<f64>> = vec![Vec::new(); self.units.len()];
        plan.visit(
            self.cluster,
            &self.entries,
            self.variables,
            &mut |weight, node| {
                let entries = self.entries.iter().zip(&fixed).zip(&mut outcomes);
                for (at, ((entry, fixed), chances)) in entries.enumerate() {
                    match fixed {
                        Some(limited) => node.chances(at, entry, limited, chances),
                        None => node.chances(at, entry, &node.limits(entry), chances),
                    }
                }
                for (unit, ways) in self.units.iter().zip(&mut ways) {
                    self.ways_of(unit, &outcomes, ways);
                }
                visit(weight, &ways);
            },
        );
    }

    /// The chance of each way: its members are independent here, and those that are not
    /// uncertain have one outcome.
    fn ways_of(&self, unit: &Unit, outcomes: &[Vec<f64>], ways: &mut Vec<f64>) {
        ways.clear();
        ways.push(1.0);
        for (index, count) in unit.members.iter().zip(&unit.counts) {
            if *count < 2 {
                continue;
            }
            let at = self.cluster.entries.iter().position(|known| known == index);
            let Some(chances) = at.and_then(|at| outcomes.get(at)) else {
                continue;
            };
            let before = ways.clone();
            ways.clear();
            for chance in chances {
                ways.extend(before.iter().map(|way| way * chance));
            }
        }
    }
}

fn add(sums: &mut [f64], weight: f64, values: &[f64]) {
    for (sum, value) in sums.iter_mut().zip(values) {
        *sum += weight * value;
    }
}

fn bump(sums: &mut [f64], at: usize, by: f64) {
    if let Some(sum) = sums.get_mut(at) {
        *sum += by;
    }
}

fn normalise(sums: &mut [f64], whole: f64) {
    if whole > 0.0 {
        sums.iter_mut().for_each(|sum| *sum /= whole);
    }
}
