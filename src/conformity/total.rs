//! From clusters to sections, from sections to the total and the award.

use std::cell::{OnceCell, RefCell};
use std::collections::BTreeMap;

use crate::quantity::Marks;

use super::apart::Apart;
use super::axes::Axes;
use super::counted::Counting;
use super::key::{Key, Layout};
use super::key_map::KeyMap;
use super::solve::Solved;
use super::spread::{Spread, all_but_each};
use super::tail::{Sum, Tail};

/// Up to about so many numbers are kept while criteria are looked at.
const MOST_COSTS: usize = 1 << 20;

/// What the award asks for beside its marks.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Conditions {
    pub axes: Axes,
    pub pass: Marks,
    /// This many warnings stop, unless that is lifted.
    pub enough_warnings: u32,
    pub warnings_lifted: bool,
}

/// What does not vary.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Base {
    /// By axis.
    pub sums: Vec<i64>,
    pub stops: bool,
    pub warnings: u32,
}

/// Axes that hang together by clusters.
#[derive(Debug, Clone, Copy)]
pub(super) struct Block<'a> {
    /// How the states of its clusters are read.
    pub layout: &'a Layout,
    /// Clusters in it, by index.
    pub clusters: &'a [usize],
}

/// A block with what it comes to.
struct Sums<'a> {
    block: Block<'a>,
    states: Spread,
    /// The fewest units that it comes to in the total.
    least: i64,
    /// For each cluster of the block the others together, once asked for.
    others: OnceCell<Option<Vec<Spread>>>,
    verdicts: RefCell<KeyMap<Verdict>>,
}

/// One state of a block and what it means for the award.
#[derive(Debug, Clone, Copy)]
struct Verdict {
    /// Its units are those over the block's least.
    sum: Sum,
    /// Which set of axes reaches its minimum, by number.
    minima: usize,
    /// Probability of a pass, the other blocks open.
    passing: f64,
}

/// The whole marking.
pub(super) struct Whole<'a> {
    solved: &'a [Solved],
    counting: Counting<'a>,
    blocks: Vec<Sums<'a>>,
    /// How the sums of blocks are read.
    layout: Layout,
    totals: Spread,
    /// All blocks together, then all but each.
    tail: Tail,
    tails: Vec<Tail>,
    /// Sets of axes that reach their minimum, by number.
    minima: RefCell<Vec<Vec<bool>>>,
}

impl<'a> Whole<'a> {
    /// Joins clusters to blocks; `None` on overflow or where there are too many states.
    pub fn of(
        blocks: impl Iterator<Item = Block<'a>>,
        solved: &'a [Solved],
        base: &Base,
        conditions: &'a Conditions,
    ) -> Option<Self> {
        let enough = conditions.enough_warnings;
        let mut counting = Counting::of(&conditions.axes, enough);
        let mut sums = Vec::new();
        for block in blocks {
            sums.push(Sums::of(block, solved, &mut counting)?);
        }
        let of_blocks: Vec<Vec<(Sum, f64)>> = sums
            .iter()
            .map(|sums| sums.in_total(&counting))
            .collect::<Option<_>>()?;
        let (layout, first) = in_one_layout(&sums, &of_blocks, base, enough)?;
        let spread = |of_block: &Vec<(Sum, f64)>| {
            Spread::of(of_block.iter().map(|(sum, chance)| {
                let over = u64::try_from(sum.units).unwrap_or(0);
                let key = layout.key([over].into_iter(), sum.warnings, sum.is_bad);
                (key, *chance)
            }))
        };
        let of_blocks: Vec<Spread> = of_blocks.iter().map(spread).collect();
        let of_blocks: Vec<&Spread> = of_blocks.iter().collect();
        let mut totals = first.clone();
        for of_block in &of_blocks {
            totals = totals.with(of_block)?;
        }
        let pass = conditions.axes.total.at_least(conditions.pass)?;
        let enough = (!conditions.warnings_lifted).then_some(enough);
        let tail = |sums: &Spread| Tail::of(sums, &layout, pass, enough);
        let others = all_but_each(&first, &of_blocks)?;
        Some(Self {
            solved,
            tail: tail(&totals),
            tails: others.iter().map(tail).collect(),
            counting,
            blocks: sums,
            layout,
            totals,
            minima: RefCell::default(),
        })
    }

    /// Every total with its probability, the least first.
    pub fn totals(&self) -> Vec<(Marks, f64)> {
        let mut totals: BTreeMap<i64, f64> = BTreeMap::new();
        for (key, chance) in self.totals.iter() {
            let units = self.layout.sums(key).map(|(_, sum)| sum).sum();
            *totals.entry(units).or_insert(0.0) += chance;
        }
        let totals = totals.into_iter();
        totals
            .map(|(units, chance)| (self.counting.axes.total.marks(units), chance))
            .collect()
    }

    /// The probability of a pass.
    pub fn pass(&self) -> f64 {
        self.tail.passing(&[Sum::default()])
    }

    /// The probability that a section reaches its minimum.
    pub fn reaches(&self, section: usize) -> f64 {
        let axis = self.counting.axes.of_section(section);
        let place = |sums: &Sums<'_>| {
            let mut axes = sums.block.layout.axes.iter();
            axes.position(|known| Some(*known) == axis)
        };
        let held = |sums| Some((sums, place(sums)?));
        let Some((sums, place)) = self.blocks.iter().find_map(held) else {
            return 1.0;
        };
        let reaches = |key: Key| {
            let minima = self.counting.minima(sums.block.layout, key);
            minima.get(place) == Some(&true)
        };
        let states = sums.states.iter().filter(|(key, _)| reaches(*key));
        states.map(|(_, chance)| chance).sum()
    }

    /// The probability that the award, or whether a section reaches its minimum, differs
    /// between what is and what would be, where a unit of a cluster, `apart` from the
    /// others and with ways of these `keys`, took for each way the one `given` instead.
    pub fn differs(
        &self,
        cluster: usize,
        keys: &[Key],
        apart: &Apart,
        given: &[usize],
    ) -> Option<f64> {
        let (at, others) = self.around(cluster)?;
        let most = self.blocks.get(at)?.block.layout.most_digits();
        let mut known: KeyMap<usize> = KeyMap::up_to(most);
        let mut costs = Vec::new();
        let mut differs = 0.0;
        for (rest, ways) in apart.iter() {
            for (other, before) in others.iter() {
                let beside = rest.plus(other);
                let from = match known.get(beside) {
                    Some(from) => from,
                    None => {
                        // Past so many they are worked out anew, so that memory stays small.
                        if costs.len() > MOST_COSTS {
                            known = KeyMap::up_to(most);
                            costs.clear();
                        }
                        let from = costs.len();
                        costs.extend(self.costs(at, beside, keys, given)?);
                        known.insert(beside, from);
                        from
                    }
                };
                let costs = costs.get(from..)?.iter();
                let here: f64 = ways.iter().zip(costs).map(|(way, cost)| way * cost).sum();
                differs += before * here;
            }
        }
        Some(differs)
    }

    /// For each of the ways with these `keys`, beside this state of a block, the probability
    /// that it differs from the one `given` instead.
    fn costs(&self, block: usize, beside: Key, keys: &[Key], given: &[usize]) -> Option<Vec<f64>> {
        let verdicts = keys
            .iter()
            .map(|key| self.verdict(block, beside.plus(*key)));
        let verdicts: Vec<Verdict> = verdicts.collect::<Option<_>>()?;
        let pairs = verdicts.iter().zip(given);
        let costs = pairs.map(|(is, given)| self.differ(block, *is, *verdicts.get(*given)?));
        costs.collect()
    }

    /// The probability, over the other blocks, that two states of a block differ.
    fn differ(&self, block: usize, a: Verdict, b: Verdict) -> Option<f64> {
        if a.minima != b.minima {
            return Some(1.0);
        }
        let both = if a.sum.warnings == b.sum.warnings {
            // Whoever passes with fewer marks passes with more.
            a.passing.min(b.passing)
        } else {
            self.tails.get(block)?.passing(&[a.sum, b.sum])
        };
        Some(a.passing + b.passing - 2.0 * both)
    }

    /// The variance of the probability of a pass over the states of a cluster, which a
    /// draw of it has.
    pub fn variance(&self, cluster: usize) -> Option<f64> {
        let (at, others) = self.around(cluster)?;
        let (mut mean, mut square) = (0.0, 0.0);
        for (own, chance) in self.solved.get(cluster)?.states.iter() {
            let mut passing = 0.0;
            for (other, before) in others.iter() {
                passing += before * self.verdict(at, own.plus(other))?.passing;
            }
            mean += chance * passing;
            square += chance * passing * passing;
        }
        Some((square - mean * mean).max(0.0))
    }

    /// The block of a cluster, and what its other clusters come to.
    fn around(&self, cluster: usize) -> Option<(usize, &Spread)> {
        let holds = |sums: &Sums<'_>| sums.block.clusters.contains(&cluster);
        let at = self.blocks.iter().position(holds)?;
        let sums = self.blocks.get(at)?;
        let place = sums
            .block
            .clusters
            .iter()
            .position(|known| *known == cluster)?;
        let others = sums.others.get_or_init(|| {
            let own = sums.block.clusters.iter();
            let own = own.map(|at| Some(&self.solved.get(*at)?.states));
            all_but_each(
                &Spread::sure(Key::default()),
                &own.collect::<Option<Vec<_>>>()?,
            )
        });
        Some((at, others.as_ref()?.get(place)?))
    }

    fn verdict(&self, block: usize, key: Key) -> Option<Verdict> {
        let sums = self.blocks.get(block)?;
        if let Some(known) = sums.verdicts.borrow().get(key) {
            return Some(known);
        }
        let sum = sums.over_least(self.counting.sum(sums.block.layout, key)?)?;
        let verdict = Verdict {
            sum,
            minima: self.numbered(self.counting.minima(sums.block.layout, key)),
            passing: self.tails.get(block)?.passing(&[sum]),
        };
        sums.verdicts.borrow_mut().insert(key, verdict);
        Some(verdict)
    }

    fn numbered(&self, minima: Vec<bool>) -> usize {
        let mut known = self.minima.borrow_mut();
        let place = known.iter().position(|known| *known == minima);
        place.unwrap_or_else(|| {
            known.push(minima);
            known.len() - 1
        })
    }
}

impl<'a> Sums<'a> {
    fn of(block: Block<'a>, solved: &[Solved], counting: &mut Counting<'_>) -> Option<Self> {
        let mut states = Spread::sure(Key::default());
        for at in block.clusters {
            states = states.with(&solved.get(*at)?.states)?;
        }
        counting.learn(block.layout, &states)?;
        let units = states.iter().map(|(key, _)| {
            let sum = counting.sum(block.layout, key)?;
            Some(sum.units)
        });
        let units: Vec<i64> = units.collect::<Option<_>>()?;
        Some(Self {
            least: units.into_iter().min().unwrap_or(0),
            block,
            states,
            others: OnceCell::new(),
            verdicts: RefCell::new(KeyMap::up_to(block.layout.most_digits())),
        })
    }

    fn over_least(&self, sum: Sum) -> Option<Sum> {
        let units = sum.units.checked_sub(self.least)?;
        Some(Sum { units, ..sum })
    }

    /// Every state as it counts in the total.
    fn in_total(&self, counting: &Counting<'_>) -> Option<Vec<(Sum, f64)>> {
        let states = self.states.iter().map(|(key, chance)| {
            let sum = counting.sum(self.block.layout, key)?;
            Some((self.over_least(sum)?, chance))
        });
        states.collect()
    }
}

/// A layout that holds the sums of all blocks together, and what they start from.
fn in_one_layout(
    blocks: &[Sums<'_>],
    of_blocks: &[Vec<(Sum, f64)>],
    base: &Base,
    enough: u32,
) -> Option<(Layout, Spread)> {
    let (mut least, mut span) = (0_i64, 0_u64);
    let warned = base.warnings.min(enough);
    let mut warnings = u64::from(warned);
    for (sums, of_block) in blocks.iter().zip(of_blocks) {
        let of_block = of_block.iter().map(|(sum, _)| sum);
        let most = of_block.clone().map(|sum| sum.units).max().unwrap_or(0);
        least = least.checked_add(sums.least)?;
        span = span.checked_add(u64::try_from(most).ok()?)?;
        let most = of_block.map(|sum| u64::from(sum.warnings)).max();
        warnings += most.unwrap_or(0);
    }
    let layout = Layout::with(vec![0], &[(least, span)], warnings)?;
    let first = layout.key([0].into_iter(), warned, base.stops);
    Some((layout, Spread::sure(first)))
}

/// Axes that clusters join, with those clusters, where each cluster reaches the given
/// of `count` axes.
pub(super) fn joined(count: usize, axes_of: &[Vec<usize>]) -> Vec<(Vec<usize>, Vec<usize>)> {
    let mut names: Vec<usize> = (0..count).collect();
    for axes in axes_of {
        let first = axes.first().and_then(|at| names.get(*at));
        let Some(to) = first.copied() else {
            continue;
        };
        for axis in axes {
            let from = names.get(*axis).copied();
            names
                .iter_mut()
                .filter(|name| Some(**name) == from)
                .for_each(|name| *name = to);
        }
    }
    let mut blocks: BTreeMap<usize, (Vec<usize>, Vec<usize>)> = BTreeMap::new();
    for (axis, name) in names.iter().enumerate() {
        blocks.entry(*name).or_default().0.push(axis);
    }
    for (at, axes) in axes_of.iter().enumerate() {
        let name = axes.first().and_then(|axis| names.get(*axis));
        if let Some((_, clusters)) = name.and_then(|name| blocks.get_mut(name)) {
            clusters.push(at);
        }
    }
    blocks.into_values().collect()
}
