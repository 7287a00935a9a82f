//! From clusters to sections, from sections to the total and the award.

use std::collections::BTreeMap;

use crate::marking::SectionRule;
use crate::quantity::Marks;

use super::chain::State;
use super::lattice::Lattice;
use super::solve::{Changes, Solved};

/// What the award asks for beside its marks.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Conditions {
    pub rules: Vec<SectionRule>,
    pub pass: Marks,
    /// This many warnings stop, unless that is lifted.
    pub enough_warnings: u32,
    pub warnings_lifted: bool,
}

/// One sum of a section, as it counts.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
struct Counted {
    marks: Marks,
    reaches: bool,
}

/// What some blocks come to: marks in units of the total's lattice, warnings, and whether
/// something stands against a pass.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
struct Sum {
    units: i64,
    warnings: u32,
    bad: bool,
}

type Sums = BTreeMap<Sum, f64>;

/// Sections that hang together by clusters, with the states of all their sums.
struct Block {
    sections: Vec<usize>,
    /// Clusters in it, by index.
    clusters: Vec<usize>,
    states: BTreeMap<State, f64>,
    sums: Sums,
}

/// The whole marking.
pub(super) struct Whole<'a> {
    solved: &'a [Solved],
    /// What does not vary, by section, in units of the entries' lattice.
    base: State,
    conditions: &'a Conditions,
    counted: Vec<BTreeMap<i64, Counted>>,
    total: Lattice,
    pass_units: i64,
    blocks: Vec<Block>,
}

impl<'a> Whole<'a> {
    /// Joins clusters to blocks; `None` on overflow or where there are too many states.
    pub fn of(
        solved: &'a [Solved],
        base: State,
        entries: &Lattice,
        conditions: &'a Conditions,
    ) -> Option<Self> {
        let mut whole = Self {
            solved,
            base,
            conditions,
            counted: Vec::new(),
            total: Lattice::of([])?,
            pass_units: 0,
            blocks: Vec::new(),
        };
        for (sections, clusters) in joined(conditions.rules.len(), solved) {
            let states = whole.states(&sections, &clusters, None)?;
            whole.blocks.push(Block {
                sections,
                clusters,
                states,
                sums: Sums::new(),
            });
        }
        whole.counted = whole.count(entries)?;
        let marks = whole.counted.iter().flat_map(|sums| sums.values());
        whole.total = Lattice::of(marks.map(|counted| counted.marks))?;
        whole.pass_units = whole.total.at_least(conditions.pass)?;
        for at in 0..whole.blocks.len() {
            let sums = whole.blocks.get(at).and_then(|block| whole.sums(block))?;
            if let Some(block) = whole.blocks.get_mut(at) {
                block.sums = sums;
            }
        }
        Some(whole)
    }

    /// Every sum of each section that a block's states hold, as it counts.
    fn count(&self, entries: &Lattice) -> Option<Vec<BTreeMap<i64, Counted>>> {
        let mut counted = vec![BTreeMap::new(); self.conditions.rules.len()];
        for block in &self.blocks {
            for state in block.states.keys() {
                for (section, units) in block.sections.iter().zip(&state.sums) {
                    let rule = self.conditions.rules.get(*section)?;
                    let known = counted.get_mut(*section)?;
                    if let std::collections::btree_map::Entry::Vacant(place) = known.entry(*units) {
                        let marks = rule.counted(entries.marks(*units))?;
                        let reaches = rule.minimum.is_none_or(|least| marks >= least);
                        place.insert(Counted { marks, reaches });
                    }
                }
            }
        }
        Some(counted)
    }

    /// States of the sums of `sections` by `clusters`, without the one left out.
    fn states(
        &self,
        sections: &[usize],
        clusters: &[usize],
        without: Option<usize>,
    ) -> Option<BTreeMap<State, f64>> {
        let base = State {
            sums: sections
                .iter()
                .map(|section| self.base.sums.get(*section).copied())
                .collect::<Option<_>>()?,
            stops: false,
            warnings: 0,
        };
        let mut states = BTreeMap::from([(base, 1.0)]);
        for at in clusters.iter().filter(|at| Some(**at) != without) {
            let solved = self.solved.get(*at)?;
            let mut then: BTreeMap<State, f64> = BTreeMap::new();
            for (to_add, chance) in solved.states.iter().zip(&solved.chances) {
                let to_add = placed(to_add, &solved.sections, sections);
                for (state, before) in &states {
                    *then.entry(state.plus(&to_add)).or_insert(0.0) += before * chance;
                }
            }
            if then.len() > 200_000 {
                return None;
            }
            states = then;
        }
        Some(states)
    }

    fn sums(&self, block: &Block) -> Option<Sums> {
        let mut sums = Sums::new();
        for (state, chance) in &block.states {
            *sums.entry(self.sum(&block.sections, state)?).or_insert(0.0) += chance;
        }
        Some(sums)
    }

    /// What a state of `sections` counts; `None` for sums that no state holds.
    fn sum(&self, sections: &[usize], state: &State) -> Option<Sum> {
        let mut units = 0_i64;
        let mut bad = state.stops;
        for (section, sum) in sections.iter().zip(&state.sums) {
            let counted = self.counted.get(*section)?.get(sum)?;
            units = units.checked_add(self.total.units(counted.marks)?)?;
            bad |= !counted.reaches;
        }
        Some(Sum {
            units,
            warnings: state.warnings,
            bad,
        })
    }

    /// What all blocks but one come to.
    fn others(&self, without: Option<usize>) -> Sums {
        let base = Sum {
            units: 0,
            warnings: self.base.warnings,
            bad: self.base.stops,
        };
        let blocks = self.blocks.iter().enumerate();
        let blocks = blocks.filter(|(at, _)| Some(*at) != without);
        blocks.fold(Sums::from([(base, 1.0)]), |sums, (_, block)| {
            both(&sums, &block.sums, self.conditions.enough_warnings)
        })
    }

    /// Every total with its probability, the least first.
    pub fn totals(&self) -> Vec<(Marks, f64)> {
        let mut totals: BTreeMap<i64, f64> = BTreeMap::new();
        for (sum, chance) in self.others(None) {
            *totals.entry(sum.units).or_insert(0.0) += chance;
        }
        let totals = totals.into_iter();
        totals
            .map(|(units, chance)| (self.total.marks(units), chance))
            .collect()
    }

    /// The probability of a pass.
    pub fn pass(&self) -> f64 {
        let nothing = Sum {
            units: 0,
            warnings: 0,
            bad: false,
        };
        Tail::of(&self.others(None), self).passing(&[nothing])
    }

    /// The probability that a section reaches its minimum.
    pub fn reaches(&self, section: usize) -> f64 {
        let block = self
            .blocks
            .iter()
            .find(|block| block.sections.contains(&section));
        let Some(block) = block else {
            return 1.0;
        };
        let place = block.sections.iter().position(|known| *known == section);
        let reaches = |state: &State| {
            let sum = place.and_then(|at| state.sums.get(at));
            let counted = sum.and_then(|sum| self.counted.get(section)?.get(sum));
            counted.is_some_and(|counted| counted.reaches)
        };
        let states = block.states.iter().filter(|(state, _)| reaches(state));
        states.map(|(_, chance)| chance).sum()
    }

    /// The probability that the award, or whether a section reaches its minimum, differs
    /// between what is and what would be, by the `changes` of a cluster.
    pub fn differs(&self, cluster: usize, changes: &Changes) -> Option<f64> {
        let (block, rest, tail) = self.around(cluster)?;
        let solved = self.solved.get(cluster)?;
        let mut differs = 0.0;
        for ((is, would), chance) in changes {
            let one = placed(solved.states.get(*is)?, &solved.sections, &block.sections);
            let other = placed(
                solved.states.get(*would)?,
                &solved.sections,
                &block.sections,
            );
            for (state, before) in &rest {
                let (a, b) = (state.plus(&one), state.plus(&other));
                let differently = if self.minima(block, &a) == self.minima(block, &b) {
                    let (a, b) = (
                        self.sum(&block.sections, &a)?,
                        self.sum(&block.sections, &b)?,
                    );
                    tail.passing(&[a]) + tail.passing(&[b]) - 2.0 * tail.passing(&[a, b])
                } else {
                    1.0
                };
                differs += chance * before * differently;
            }
        }
        Some(differs)
    }

    /// The variance of the probability of a pass over the states of a cluster, which a
    /// draw of it has.
    pub fn variance(&self, cluster: usize) -> Option<f64> {
        let (block, rest, tail) = self.around(cluster)?;
        let solved = self.solved.get(cluster)?;
        let (mut mean, mut square) = (0.0, 0.0);
        for (state, chance) in solved.states.iter().zip(&solved.chances) {
            let own = placed(state, &solved.sections, &block.sections);
            let mut passing = 0.0;
            for (state, before) in rest.iter().filter(|_| *chance > 0.0) {
                let sum = self.sum(&block.sections, &state.plus(&own))?;
                passing += before * tail.passing(&[sum]);
            }
            mean += chance * passing;
            square += chance * passing * passing;
        }
        Some((square - mean * mean).max(0.0))
    }

    /// The block of a cluster, the states of the rest of that block, and what the other
    /// blocks come to.
    fn around(&self, cluster: usize) -> Option<(&Block, BTreeMap<State, f64>, Tail)> {
        let holds = |block: &Block| block.clusters.contains(&cluster);
        let at = self.blocks.iter().position(holds)?;
        let block = self.blocks.get(at)?;
        let rest = self.states(&block.sections, &block.clusters, Some(cluster))?;
        Some((block, rest, Tail::of(&self.others(Some(at)), self)))
    }

    fn minima(&self, block: &Block, state: &State) -> Vec<bool> {
        let sums = block.sections.iter().zip(&state.sums);
        sums.map(|(section, sum)| {
            let counted = self.counted.get(*section).and_then(|sums| sums.get(sum));
            counted.is_some_and(|counted| counted.reaches)
        })
        .collect()
    }
}

/// Of sums that nothing stands against, for each number of warnings how probable it is to
/// have at least so many units.
struct Tail {
    by_warnings: BTreeMap<u32, Vec<(i64, f64)>>,
    pass: i64,
    enough: Option<u32>,
}

impl Tail {
    fn of(sums: &Sums, whole: &Whole<'_>) -> Self {
        let mut by_warnings: BTreeMap<u32, Vec<(i64, f64)>> = BTreeMap::new();
        for (sum, chance) in sums.iter().filter(|(sum, _)| !sum.bad) {
            by_warnings
                .entry(sum.warnings)
                .or_default()
                .push((sum.units, *chance));
        }
        for list in by_warnings.values_mut() {
            let mut above = 0.0;
            for (_, chance) in list.iter_mut().rev() {
                above += *chance;
                *chance = above;
            }
        }
        let Conditions {
            enough_warnings,
            warnings_lifted,
            ..
        } = whole.conditions;
        Self {
            by_warnings,
            pass: whole.pass_units,
            enough: (!warnings_lifted).then_some(*enough_warnings),
        }
    }

    /// The probability that each of `sums`, with the rest, passes.
    fn passing(&self, sums: &[Sum]) -> f64 {
        if sums.iter().any(|sum| sum.bad) {
            return 0.0;
        }
        let least = sums.iter().map(|sum| sum.units).min().unwrap_or(0);
        let most = sums.iter().map(|sum| sum.warnings).max().unwrap_or(0);
        let from = self.pass.saturating_sub(least);
        let fits = |warnings: u32| {
            let all = warnings.saturating_add(most);
            self.enough.is_none_or(|enough| all < enough)
        };
        let lists = self
            .by_warnings
            .iter()
            .filter(|(warnings, _)| fits(**warnings));
        lists
            .map(|(_, list)| {
                let at = list.partition_point(|(units, _)| *units < from);
                list.get(at).map_or(0.0, |(_, above)| *above)
            })
            .sum()
    }
}

/// `state` with its sums at the places of `sections`.
fn placed(state: &State, of: &[usize], sections: &[usize]) -> State {
    let sum = |section: &usize| {
        let at = of.iter().position(|known| known == section);
        at.and_then(|at| state.sums.get(at)).copied().unwrap_or(0)
    };
    State {
        sums: sections.iter().map(sum).collect(),
        ..state.clone()
    }
}

/// Both together; more warnings than `enough` are as good as `enough`.
fn both(one: &Sums, other: &Sums, enough: u32) -> Sums {
    let mut together: BTreeMap<Sum, f64> = BTreeMap::new();
    for (a, of_a) in one {
        for (b, of_b) in other {
            let sum = Sum {
                units: a.units.saturating_add(b.units),
                warnings: a.warnings.saturating_add(b.warnings).min(enough),
                bad: a.bad || b.bad,
            };
            *together.entry(sum).or_insert(0.0) += of_a * of_b;
        }
    }
    together.into_iter().collect()
}

/// Sections that clusters join, with those clusters.
fn joined(count: usize, solved: &[Solved]) -> Vec<(Vec<usize>, Vec<usize>)> {
    let mut names: Vec<usize> = (0..count).collect();
    for cluster in solved {
        let Some(to) = cluster
            .sections
            .first()
            .and_then(|at| names.get(*at))
            .copied()
        else {
            continue;
        };
        for section in &cluster.sections {
            let from = names.get(*section).copied();
            names
                .iter_mut()
                .filter(|name| Some(**name) == from)
                .for_each(|name| *name = to);
        }
    }
    let mut blocks: BTreeMap<usize, (Vec<usize>, Vec<usize>)> = BTreeMap::new();
    for (section, name) in names.iter().enumerate() {
        blocks.entry(*name).or_default().0.push(section);
    }
    for (at, cluster) in solved.iter().enumerate() {
        let name = cluster
            .sections
            .first()
            .and_then(|section| names.get(*section));
        if let Some((_, clusters)) = name.and_then(|name| blocks.get_mut(name)) {
            clusters.push(at);
        }
    }
    blocks.into_values().collect()
}
