use crate::quantity::Marks;

use super::cluster::Cluster;
use super::key::{Key, Layout};
use super::scales::{Parts, Scales};
use super::solve::{Solved, Task};
use super::total::{Base, Block, Whole, joined};
use super::units::{Unit, charged, outcomes};
use super::variable::Variables;

/// Every cluster of a marking, worked out.
pub(super) struct Weighing<'s> {
    parts: &'s Parts,
    base: Base,
    /// Layout and clusters of each block.
    blocks: Vec<(Layout, Vec<usize>)>,
    pub tasks: Vec<Task<'s>>,
    /// Of each cluster the keys of the ways of each unit.
    pub keys: Vec<Vec<Vec<Key>>>,
    pub solved: Vec<Solved>,
}

impl<'s> Weighing<'s> {
    /// Works the clusters out; `None` where they can come to too many sums.
    pub fn of(scales: &'s Scales<'_>, parts: &'s Parts) -> Option<Self> {
        let base = parts.base();
        let tasks: Vec<Task<'s>> = parts
            .clusters
            .iter()
            .map(|cluster| task(scales, cluster, &parts.units, &scales.variables))
            .collect();
        let axes_of: Vec<Vec<usize>> = tasks.iter().map(axes).collect();
        let mut blocks = Vec::new();
        let mut keys: Vec<Vec<Vec<Key>>> = vec![Vec::new(); tasks.len()];
        for (axes, clusters) in joined(base.sums.len(), &axes_of) {
            let own = clusters.iter().filter_map(|at| tasks.get(*at));
            let units: Vec<&Unit> = own.flat_map(|task| task.units.iter().copied()).collect();
            let layout = Layout::of(axes, &units, &base.sums)?;
            for at in &clusters {
                let units = tasks.get(*at)?.units.iter();
                *keys.get_mut(*at)? = units.map(|unit| layout.keys(unit)).collect();
            }
            blocks.push((layout, clusters));
        }
        let solved = tasks.iter().zip(&keys).map(|(task, keys)| task.solve(keys));
        Some(Self {
            solved: solved.collect(),
            parts,
            base,
            blocks,
            tasks,
            keys,
        })
    }

    /// All together; `None` on overflow or where there are too many states.
    pub fn whole(&self) -> Option<Whole<'_>> {
        let blocks = self.blocks.iter();
        let blocks = blocks.map(|(layout, clusters)| Block { layout, clusters });
        Whole::of(blocks, &self.solved, &self.base, &self.parts.conditions)
    }
}

/// The task of a cluster, its readings being `variables`.
pub(super) fn task<'s>(
    scales: &'s Scales<'_>,
    cluster: &'s Cluster,
    units: &'s [Unit],
    variables: &'s Variables,
) -> Task<'s> {
    let entries = cluster.entries.iter();
    let holds = |unit: &&Unit| {
        let mut entries = cluster.entries.iter();
        entries.any(|index| unit.members.contains(index))
    };
    Task {
        cluster,
        entries: entries
            .filter_map(|index| scales.measured(*index))
            .collect(),
        units: units.iter().filter(holds).collect(),
        variables,
    }
}

/// The axes that the units of a cluster reach.
fn axes(task: &Task<'_>) -> Vec<usize> {
    let ways = task.units.iter().flat_map(|unit| &unit.ways);
    let sums = ways.flat_map(|way| way.sums.iter().map(|(axis, _)| *axis));
    let mut axes: Vec<usize> = sums.collect();
    axes.sort_unstable();
    axes.dedup();
    axes
}

/// The marks that the entry at `place` of a cluster can come to, causes charged once, the
/// most first, where the ways of its units have these probabilities; `None` on overflow.
pub(super) fn chances(
    scales: &Scales<'_>,
    task: &Task<'_>,
    ways: &[Vec<f64>],
    place: usize,
) -> Option<Vec<(Marks, f64)>> {
    let (unit, member) = task.member(place)?;
    let known = task.units.get(unit)?;
    let mut chances: Vec<(Marks, f64)> = Vec::new();
    for (way, probability) in ways.get(unit)?.iter().enumerate() {
        let mut left = way;
        let mut chosen = Vec::new();
        for (index, count) in known.members.iter().zip(&known.counts) {
            let of = outcomes(scales.models.get(*index)?);
            chosen.push(*of.get(left % count)?);
            left /= count;
        }
        let charged = charged(scales.rubric, &scales.entries, &known.members, &chosen)?;
        let marks = charged.get(member)?.marks?;
        match chances.iter_mut().find(|(known, _)| *known == marks) {
            Some((_, sum)) => *sum += probability,
            None => chances.push((marks, *probability)),
        }
    }
    chances.sort_by(|(a, _), (b, _)| b.cmp(a));
    Some(chances)
}
