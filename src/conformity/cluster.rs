//! Which criteria hang together, and what they hang together by.

use super::entry::MeasuredEntry;
use super::value::Value;
use super::variable::Variables;

/// Entries that share something uncertain, or one cause, and what has to be held fixed so
/// that each is independent of the others.
#[derive(Debug, Clone, Default, PartialEq)]
pub(super) struct Cluster {
    /// Entries, by index, in order.
    pub entries: Vec<usize>,
    /// Shared parts to hold fixed.
    pub parts: Vec<usize>,
    /// Readings to hold fixed: those of several entries, and those of targets and limits.
    pub held: Vec<usize>,
    /// What each held reading is off by itself, parts that only it has folded in.
    pub held_own: Vec<f64>,
    /// Of each entry, the standard uncertainty of parts that only it has.
    pub folded: Vec<f64>,
    /// Clusters that share nothing, put together as their states are too many to combine:
    /// it is drawn.
    pub is_wide: bool,
}

impl Cluster {
    /// All of `clusters` as one.
    pub fn wide(clusters: &[Self]) -> Self {
        let entries = clusters.iter().flat_map(|cluster| cluster.entries.clone());
        let mut entries: Vec<usize> = entries.collect();
        entries.sort_unstable();
        Self {
            entries,
            is_wide: true,
            ..Self::default()
        }
    }
}

/// Groups the `measured` entries, each with its index; those of one unit of `units` stay
/// together.
pub(super) fn clusters(
    measured: &[(usize, &MeasuredEntry)],
    units: &[Vec<usize>],
    variables: &Variables,
) -> Vec<Cluster> {
    let held = held(measured, variables);
    let touches: Vec<Touch> = measured
        .iter()
        .map(|(index, entry)| Touch::of(*index, entry, &held, variables))
        .collect();
    let unit_of = |entry: &usize| units.iter().position(|unit| unit.contains(entry));
    let mut groups = Groups::of(touches.len());
    for (one, a) in touches.iter().enumerate() {
        for (other, b) in touches.iter().enumerate().skip(one + 1) {
            let same_unit = unit_of(&a.entry) == unit_of(&b.entry);
            if same_unit || a.meets(b) {
                groups.join(one, other);
            }
        }
    }
    let together = groups.all().into_iter().map(|members| {
        let touches: Vec<&Touch> = members.iter().filter_map(|at| touches.get(*at)).collect();
        cluster(&touches, variables)
    });
    together.collect()
}

/// The variables that more than one entry uses, and those of targets and limits.
fn held(measured: &[(usize, &MeasuredEntry)], variables: &Variables) -> Vec<usize> {
    let mut uses = vec![0_u32; variables.all.len()];
    for (_, entry) in measured {
        let basis = entry.basis();
        for index in basis.iter().chain(&basis).chain(&entry.value.variables()) {
            if let Some(count) = uses.get_mut(*index) {
                *count += 1;
            }
        }
    }
    let uses = uses.into_iter().zip(&variables.all).enumerate();
    uses.filter(|(_, (count, variable))| *count > 1 && !variable.is_exact())
        .map(|(index, _)| index)
        .collect()
}

/// What one entry depends on.
struct Touch {
    entry: usize,
    held: Vec<usize>,
    /// Sensitivity to each shared part past the held readings.
    parts: Vec<(usize, f64)>,
    /// Every part that it depends on, by held readings too.
    reached: Vec<usize>,
    /// Whether a part that only it has can be added to what is its own.
    folds: bool,
}

impl Touch {
    fn of(index: usize, entry: &MeasuredEntry, held: &[usize], variables: &Variables) -> Self {
        let mut used = entry.basis();
        used.extend(entry.value.variables());
        used.retain(|index| held.contains(index));
        used.sort_unstable();
        used.dedup();
        let parts = 0..variables.parts.len();
        let parts: Vec<(usize, f64)> = parts
            .map(|part| (part, net(&entry.value, part, held, variables)))
            .filter(|(_, net)| *net != 0.0)
            .collect();
        let by_held = used.iter().filter_map(|index| variables.all.get(*index));
        let by_held = by_held.flat_map(|variable| variable.shared.iter().map(|(part, _)| *part));
        let direct = parts.iter().map(|(part, _)| *part);
        Self {
            entry: index,
            reached: by_held.chain(direct).collect(),
            held: used,
            parts,
            folds: matches!(entry.value, Value::Single(_) | Value::Difference(..)),
        }
    }

    /// Whether both depend on one held reading or, by it or directly, on one part.
    fn meets(&self, other: &Self) -> bool {
        let held = self.held.iter().any(|index| other.held.contains(index));
        held || self.reached.iter().any(|part| other.reached.contains(part))
    }
}

/// How much the free readings of `value` change with a shared part: it cancels in a
/// difference, and in the range of a series that one instrument took.
fn net(value: &Value, part: usize, held: &[usize], variables: &Variables) -> f64 {
    let of = |index: usize| {
        let free = !held.contains(&index);
        let variable = variables.all.get(index).filter(|_| free);
        variable.map_or(0.0, |variable| variable.part(part))
    };
    match value {
        Value::Single(index) => of(*index),
        Value::Difference(left, right) => of(*left) - of(*right),
        Value::Range(members) | Value::Farthest(members) => {
            let sizes: Vec<f64> = members.iter().map(|member| of(*member)).collect();
            let first = sizes.first().copied().unwrap_or(0.0);
            if sizes.iter().all(|size| *size == first) {
                0.0
            } else {
                sizes
                    .into_iter()
                    .fold(0.0, |most: f64, size| most.max(size.abs()))
            }
        }
    }
}

fn cluster(touches: &[&Touch], variables: &Variables) -> Cluster {
    let mut held: Vec<usize> = touches
        .iter()
        .flat_map(|touch| touch.held.clone())
        .collect();
    held.sort_unstable();
    held.dedup();
    let mut parts = Vec::new();
    let mut folded = vec![0.0_f64; touches.len()];
    let own = |index: &usize| variables.all.get(*index).map_or(0.0, |known| known.own);
    let mut held_own: Vec<f64> = held.iter().map(own).collect();
    for part in 0..variables.parts.len() {
        let through = |index: &usize| {
            let variable = variables.all.get(*index);
            variable.map_or(0.0, |variable| variable.part(part))
        };
        let by_held: Vec<(usize, f64)> = held.iter().map(through).enumerate().collect();
        let by_held: Vec<_> = by_held
            .into_iter()
            .filter(|(_, size)| *size != 0.0)
            .collect();
        let direct: Vec<(usize, f64, bool)> = touches
            .iter()
            .enumerate()
            .filter_map(|(at, touch)| {
                let (_, size) = touch.parts.iter().find(|(known, _)| *known == part)?;
                Some((at, *size, touch.folds))
            })
            .collect();
        match (by_held.as_slice(), direct.as_slice()) {
            ([], []) => {}
            ([(at, size)], []) => add_square(held_own.get_mut(*at), *size),
            ([], [(at, size, true)]) => add_square(folded.get_mut(*at), *size),
            _ => parts.push(part),
        }
    }
    Cluster {
        entries: touches.iter().map(|touch| touch.entry).collect(),
        parts,
        held,
        held_own,
        folded,
        is_wide: false,
    }
}

fn add_square(place: Option<&mut f64>, size: f64) {
    if let Some(place) = place {
        *place = place.hypot(size);
    }
}

/// Members that were joined, directly or over others.
struct Groups(Vec<usize>);

impl Groups {
    fn of(count: usize) -> Self {
        Self((0..count).collect())
    }

    fn join(&mut self, one: usize, other: usize) {
        let name = |groups: &[usize], at: usize| groups.get(at).copied().unwrap_or(at);
        let (from, to) = (name(&self.0, other), name(&self.0, one));
        for group in &mut self.0 {
            if *group == from {
                *group = to;
            }
        }
    }

    fn all(&self) -> Vec<Vec<usize>> {
        let mut names = self.0.clone();
        names.sort_unstable();
        names.dedup();
        let members = |name: &usize| {
            let members = self.0.iter().enumerate();
            let members = members.filter(|(_, group)| *group == name);
            members.map(|(at, _)| at).collect()
        };
        names.iter().map(members).collect()
    }
}
