use std::ops::Range;

use rustc_hash::FxHashMap;

use super::chain::Chain;
use super::key::Key;
use super::solve::normalise;

/// One unit apart from all others of its cluster: how probable each of its ways is together
/// with each state of the others.
#[derive(Debug, Clone, Default, PartialEq)]
pub(super) struct Apart {
    /// States of the others.
    pub rest: Vec<Key>,
    /// At state times number of ways plus way.
    pub chances: Vec<f64>,
}

impl Apart {
    /// Nothing probable yet.
    fn empty(rest: &[Key], ways: usize) -> Self {
        Self {
            rest: rest.to_vec(),
            chances: vec![0.0; rest.len() * ways],
        }
    }

    fn add(&mut self, weight: f64, rest: &[f64], ways: &[f64]) {
        let places = self.chances.chunks_mut(ways.len().max(1));
        for (place, rest) in places.zip(rest) {
            let both = weight * rest;
            for (sum, way) in place.iter_mut().zip(ways) {
                *sum += both * way;
            }
        }
    }

    /// Each state of the others with the chances of the ways beside it.
    pub fn iter(&self) -> impl Iterator<Item = (Key, &[f64])> {
        let ways = self.chances.len() / self.rest.len().max(1);
        let rest = self.rest.iter().copied();
        rest.zip(self.chances.chunks(ways.max(1)))
    }
}

/// How units are taken apart from the others: halved again and again, each half beside all
/// that the other one comes to, so that the others of every unit are summed in few steps.
enum Halves {
    /// One unit, by its place in the cluster, and the states of all others.
    One(usize, Vec<Key>),
    /// The halves that hold a unit that is asked for, each with the other one's chain.
    Split(Vec<(Chain, Halves)>),
}

impl Halves {
    fn of(
        keys: &[Vec<Key>],
        units: Range<usize>,
        states: Vec<Key>,
        asked: &[usize],
    ) -> Option<Self> {
        if units.len() <= 1 {
            return Some(Self::One(units.start, states));
        }
        let middle = units.start + units.len() / 2;
        let (first, second) = (units.start..middle, middle..units.end);
        let mut halves = Vec::new();
        for (own, other) in [(first.clone(), second.clone()), (second, first)] {
            if asked.iter().any(|unit| own.contains(unit)) {
                let chain = Chain::of(states.clone(), other, keys)?;
                let within = Self::of(keys, own, chain.states.clone(), asked)?;
                halves.push((chain, within));
            }
        }
        Some(Self::Split(halves))
    }

    /// Visits each unit that is asked for with the chances of the states of the others.
    fn run(&self, from: &[f64], chances: &[Vec<f64>], visit: &mut dyn FnMut(usize, &[f64])) {
        match self {
            Self::One(unit, _) => visit(*unit, from),
            Self::Split(halves) => {
                for (chain, within) in halves {
                    within.run(&chain.run(from, chances), chances, visit);
                }
            }
        }
    }

    fn each(&self, visit: &mut dyn FnMut(usize, &[Key])) {
        match self {
            Self::One(unit, states) => visit(*unit, states),
            Self::Split(halves) => halves.iter().for_each(|(_, within)| within.each(visit)),
        }
    }
}

/// Takes units apart, node for node of an integration.
pub(super) struct Parting {
    halves: Halves,
    found: FxHashMap<usize, Apart>,
    whole: f64,
}

impl Parting {
    /// Of the cluster whose units have ways with these `keys`, the `asked` units; `None`
    /// where there are too many states.
    pub fn of(keys: &[Vec<Key>], asked: &[usize]) -> Option<Self> {
        let halves = Halves::of(keys, 0..keys.len(), vec![Key::default()], asked)?;
        let mut found = FxHashMap::default();
        halves.each(&mut |unit, rest| {
            let ways = keys.get(unit).map_or(0, Vec::len);
            found.insert(unit, Apart::empty(rest, ways));
        });
        Some(Self {
            halves,
            found,
            whole: 0.0,
        })
    }

    /// Adds one node, with the chances of the ways of each unit there.
    pub fn add(&mut self, weight: f64, chances: &[Vec<f64>]) {
        self.whole += weight;
        let found = &mut self.found;
        self.halves.run(&[1.0], chances, &mut |unit, rest| {
            if let (Some(apart), Some(ways)) = (found.get_mut(&unit), chances.get(unit)) {
                apart.add(weight, rest, ways);
            }
        });
    }

    /// What was found of each unit that was asked for.
    pub fn finish(mut self) -> FxHashMap<usize, Apart> {
        for apart in self.found.values_mut() {
            normalise(&mut apart.chances, self.whole);
        }
        self.found
    }
}
