use rustc_hash::FxHashMap;

use super::apart::{Apart, Parting};
use super::chain::Chain;
use super::cluster::Cluster;
use super::draws::Drawn;
use super::entry::{Limited, MeasuredEntry};
use super::key::Key;
use super::node::Node;
use super::quadrature::Plan;
use super::spread::Spread;
use super::units::Unit;
use super::variable::Variables;

/// More steps from state to state than this take longer than draws.
const MOST_WORK: f64 = 2e7;

/// One cluster with all that it takes to work it out.
pub(super) struct Task<'a> {
    pub cluster: &'a Cluster,
    /// Its entries, in the cluster's order.
    pub entries: Vec<&'a MeasuredEntry>,
    /// The units that hold them.
    pub units: Vec<&'a Unit>,
    pub variables: &'a Variables,
}

/// A cluster worked out.
pub(super) struct Solved {
    /// What it comes to.
    pub states: Spread,
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

impl Task<'_> {
    /// Works the cluster out, `keys` being those of the ways of each unit.
    pub fn solve(&self, keys: &[Vec<Key>]) -> Solved {
        let closed = self.plan().and_then(|plan| {
            let chain = Chain::of(vec![Key::default()], 0..keys.len(), keys)?;
            let work = u32::try_from(chain.work()).unwrap_or(u32::MAX);
            (plan.nodes * f64::from(work) <= MOST_WORK).then_some((plan, chain))
        });
        if let Some((plan, chain)) = closed {
            let mut chances = vec![0.0; chain.states.len()];
            let (whole, ways) = self.integrated(&plan, &mut |weight, here| {
                add(&mut chances, weight, &chain.run(&[1.0], here));
            });
            normalise(&mut chances, whole);
            let states = Spread::of(chain.states.into_iter().zip(chances));
            let by = By::Closed(plan);
            return Solved { states, ways, by };
        }
        let drawn = Drawn::of(self);
        Solved {
            states: drawn.states(keys),
            ways: self.counted(&drawn),
            by: By::Draws(drawn),
        }
    }

    /// The probability of each way of each unit, and nothing else.
    pub fn ways(&self) -> Vec<Vec<f64>> {
        match self.plan() {
            Some(plan) => self.integrated(&plan, &mut |_, _| {}).1,
            None => self.counted(&Drawn::of(self)),
        }
    }

    fn plan(&self) -> Option<Plan> {
        Plan::of(self.cluster, &self.entries, self.variables)
    }

    /// The sum of all weights, and the probability of each way of each unit; `also` sees
    /// every node.
    fn integrated(
        &self,
        plan: &Plan,
        also: &mut dyn FnMut(f64, &[Vec<f64>]),
    ) -> (f64, Vec<Vec<f64>>) {
        let units = self.units.iter();
        let mut ways: Vec<Vec<f64>> = units.map(|unit| vec![0.0; unit.ways.len()]).collect();
        let mut whole = 0.0;
        self.visit(plan, &mut |weight, here| {
            whole += weight;
            for (sums, here) in ways.iter_mut().zip(here) {
                add(sums, weight, here);
            }
            also(weight, here);
        });
        ways.iter_mut().for_each(|sums| normalise(sums, whole));
        (whole, ways)
    }

    fn counted(&self, drawn: &Drawn) -> Vec<Vec<f64>> {
        let units = self.units.iter().enumerate();
        units
            .map(|(at, unit)| drawn.ways(at, unit.ways.len()))
            .collect()
    }

    /// The units at `asked`, each apart from the others; `None` where there are too many
    /// states.
    pub fn apart(
        &self,
        by: &By,
        keys: &[Vec<Key>],
        asked: &[usize],
    ) -> Option<FxHashMap<usize, Apart>> {
        match by {
            By::Closed(plan) => {
                let mut parting = Parting::of(keys, asked)?;
                self.visit(plan, &mut |weight, here| parting.add(weight, here));
                Some(parting.finish())
            }
            By::Draws(drawn) => Some(drawn.apart(keys, asked)),
        }
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
        self.units.get(unit).copied()
    }

    /// For each way of the unit of the entry at `at` the one in which that entry has the
    /// outcome that it is given.
    pub fn given_ways(&self, at: usize) -> Option<Vec<usize>> {
        let (unit, member) = self.member(at)?;
        let given = self.entries.get(at)?.given;
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

/// So that they come to one, as the weights came to `whole`.
pub(super) fn normalise(sums: &mut [f64], whole: f64) {
    if whole > 0.0 {
        sums.iter_mut().for_each(|sum| *sum /= whole);
    }
}
