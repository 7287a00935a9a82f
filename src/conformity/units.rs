//! Entries that are charged together, and what each can add to its sections.

use crate::marking::{EntryOutcome, Opened};
use crate::quantity::Marks;
use crate::rubric::{Entry, Rubric};

use super::entry::EntryModel;
use super::lattice::Lattice;

/// More ways than this for the members of one cause are not worked out.
const MOST_WAYS: usize = 20_000;

/// One entry, or all of one cause, with all that they can come to together.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Unit {
    /// Entries, by index.
    pub members: Vec<usize>,
    /// How many outcomes each member has.
    pub counts: Vec<usize>,
    /// What every way of the members comes to; the first member's outcome counts fastest.
    pub ways: Vec<Way>,
}

/// What one way adds.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Way {
    /// To each section that it reaches, in units of the lattice; once laid on
    /// [`Axes`](super::axes::Axes), to each axis.
    pub sums: Vec<(usize, i64)>,
    pub stops: bool,
    pub warnings: u32,
}

impl Way {
    /// What it adds to one section or axis.
    pub fn sum(&self, place: usize) -> i64 {
        let found = self.sums.iter().find(|(known, _)| *known == place);
        found.map_or(0, |(_, sum)| *sum)
    }
}

/// The members of each unit: entries of one cause and shoe together, every other by itself.
pub(super) fn groups(rubric: &Rubric, entries: &[Entry<'_>]) -> Vec<Vec<usize>> {
    let mut groups: Vec<(Option<Key<'_>>, Vec<usize>)> = Vec::new();
    for (index, entry) in entries.iter().enumerate() {
        let cause = entry.criterion.cause.as_deref();
        let known = cause.filter(|cause| rubric.causes.iter().any(|group| group.id == *cause));
        let key = known.map(|cause| (cause, entry.shoe.map(|shoe| shoe.id.as_str())));
        let same = groups
            .iter_mut()
            .find(|(other, _)| key.is_some() && *other == key);
        match same {
            Some((_, members)) => members.push(index),
            None => groups.push((key, vec![index])),
        }
    }
    groups.into_iter().map(|(_, members)| members).collect()
}

/// A cause and a shoe.
type Key<'a> = (&'a str, Option<&'a str>);

/// What an entry can come to.
pub(super) fn outcomes(model: &EntryModel) -> &[EntryOutcome] {
    match model {
        EntryModel::Fixed(outcome) => std::slice::from_ref(outcome),
        EntryModel::Measured(entry) => &entry.outcomes,
    }
}

/// Makes units of entries and their outcomes.
pub(super) struct Builder<'a> {
    pub rubric: &'a Rubric,
    pub entries: &'a [Entry<'a>],
    pub models: &'a [EntryModel],
    /// Entries whose stop is lifted.
    pub lifted: &'a [bool],
    pub lattice: &'a Lattice,
}

impl Builder<'_> {
    /// The unit of `members`; `None` where there are too many ways, and on overflow.
    pub fn unit(&self, members: &[usize]) -> Option<Unit> {
        let of: Vec<&[EntryOutcome]> = members
            .iter()
            .filter_map(|index| self.models.get(*index))
            .map(outcomes)
            .collect();
        let counts: Vec<usize> = of.iter().map(|outcomes| outcomes.len()).collect();
        let many = counts.iter().try_fold(1_usize, |many, count| {
            many.checked_mul(*count).filter(|many| *many <= MOST_WAYS)
        })?;
        let ways = (0..many).map(|way| {
            let mut left = way;
            let chosen = of.iter().map(|outcomes| {
                let at = left % outcomes.len().max(1);
                left /= outcomes.len().max(1);
                outcomes.get(at).copied()
            });
            self.way(members, &chosen.collect::<Option<Vec<_>>>()?)
        });
        let ways = ways.collect::<Option<_>>()?;
        Some(Unit {
            members: members.to_vec(),
            counts,
            ways,
        })
    }

    fn way(&self, members: &[usize], chosen: &[EntryOutcome]) -> Option<Way> {
        let charged = charged(self.rubric, self.entries, members, chosen)?;
        let mut way = Way {
            sums: Vec::new(),
            stops: false,
            warnings: 0,
        };
        for (index, outcome) in members.iter().zip(charged) {
            let section = self.section_of(*index)?;
            let units = self.lattice.units(outcome.marks.unwrap_or(Marks::ZERO))?;
            match way.sums.iter_mut().find(|(known, _)| *known == section) {
                Some((_, sum)) => *sum = sum.checked_add(units)?,
                None => way.sums.push((section, units)),
            }
            way.stops |= outcome.stops && !self.lifted.get(*index).copied().unwrap_or(false);
            way.warnings = way.warnings.saturating_add(outcome.warnings);
        }
        Some(way)
    }

    fn section_of(&self, index: usize) -> Option<usize> {
        let id = &self.entries.get(index)?.section.id;
        self.rubric
            .sections
            .iter()
            .position(|section| section.id == *id)
    }
}

/// `chosen` outcomes of `members` once their cause is charged once; `None` on overflow.
pub(super) fn charged(
    rubric: &Rubric,
    entries: &[Entry<'_>],
    members: &[usize],
    chosen: &[EntryOutcome],
) -> Option<Vec<EntryOutcome>> {
    let first = members.first().and_then(|index| entries.get(*index));
    let cause = first.and_then(|entry| entry.criterion.cause.as_deref());
    let group = cause.and_then(|cause| rubric.causes.iter().find(|group| group.id == cause));
    match group {
        Some(group) => Opened::charged_once(group, chosen),
        None => Some(chosen.to_vec()),
    }
}
