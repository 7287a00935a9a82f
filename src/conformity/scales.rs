use crate::marking::{EntryOutcome, Facts, Marking, Opened};
use crate::quantity::Marks;
use crate::rubric::{Entry, Rubric, Slot};

use super::axes::Axes;
use super::cluster::{Cluster, clusters};
use super::entry::{EntryModel, MeasuredEntry};
use super::lattice::Lattice;
use super::total::{Base, Conditions};
use super::units::{Builder, Unit, groups, outcomes};
use super::variable::Variables;

/// A marking with what is uncertain in it.
pub(super) struct Scales<'a> {
    pub rubric: &'a Rubric,
    pub facts: &'a Facts,
    pub outcome: Marking,
    pub opened: Opened<'a>,
    pub entries: Vec<Entry<'a>>,
    pub slots: Vec<Slot<'a>>,
    pub variables: Variables,
    pub models: Vec<EntryModel>,
    /// Of each entry, what it comes to as it stands.
    stands: Vec<EntryOutcome>,
}

/// The entries of a marking as they hang together.
pub(super) struct Parts {
    pub conditions: Conditions,
    pub units: Vec<Unit>,
    pub clusters: Vec<Cluster>,
}

impl<'a> Scales<'a> {
    /// Lays out `facts`; `None` on overflow.
    pub fn of(rubric: &'a Rubric, facts: &'a Facts) -> Option<Self> {
        let opened = Opened::read(rubric, facts);
        let slots = rubric.slots();
        let variables = Variables::of(rubric, facts, &opened, &slots);
        let entries = rubric.entries();
        let (outcome, stands) = opened.stands(&entries)?;
        let models = entries
            .iter()
            .zip(&stands)
            .map(|(entry, stands)| EntryModel::of(rubric, &opened, entry, &variables, *stands));
        let models = models.collect::<Option<_>>()?;
        Some(Self {
            rubric,
            facts,
            outcome,
            stands,
            opened,
            entries,
            slots,
            variables,
            models,
        })
    }

    /// What hangs together; `None` on overflow, and where there are too many ways.
    pub fn parts(&self) -> Option<Parts> {
        let groups = groups(self.rubric, &self.entries);
        let lattice = self.lattice(&groups)?;
        let entries = self.entries.iter();
        let lifted: Vec<bool> = entries
            .map(|entry| self.facts.lift_of(&entry.id).is_some())
            .collect();
        let builder = Builder {
            rubric: self.rubric,
            entries: &self.entries,
            models: &self.models,
            lifted: &lifted,
            lattice: &lattice,
        };
        let conditions = self.conditions(lattice)?;
        let axes = &conditions.axes;
        let units = groups
            .iter()
            .map(|members| axes.unit(builder.unit(members)?));
        let units = units.collect::<Option<_>>()?;
        let indices = 0..self.entries.len();
        let measured = indices.filter_map(|index| Some((index, self.measured(index)?)));
        let clusters = clusters(&measured.collect::<Vec<_>>(), &groups, &self.variables);
        Some(Parts {
            conditions,
            units,
            clusters,
        })
    }

    /// An entry whose value is uncertain, by its index.
    pub fn measured(&self, index: usize) -> Option<&MeasuredEntry> {
        match self.models.get(index)? {
            EntryModel::Measured(entry) => Some(entry),
            EntryModel::Fixed(_) => None,
        }
    }

    /// Holds every number of marks that an entry can come to, with what causes give back.
    fn lattice(&self, groups: &[Vec<usize>]) -> Option<Lattice> {
        let of_entries = self.models.iter().flat_map(outcomes);
        let of_entries = of_entries.flat_map(|outcome| [outcome.marks, Some(outcome.out_of)]);
        let of_causes = self.rubric.causes.iter().map(|group| Some(group.most));
        let of_causes = of_causes.filter(|_| groups.iter().any(|group| group.len() > 1));
        Lattice::of(of_entries.chain(of_causes).flatten())
    }

    /// What the award asks for; `None` on overflow.
    fn conditions(&self, entries: Lattice) -> Option<Conditions> {
        let enough = self.rubric.award.warnings_to_stop;
        let count = usize::try_from(enough).unwrap_or(usize::MAX);
        let warned = self.outcome.warnings.get(count.saturating_sub(1));
        let lifted = warned.is_some_and(|entry| {
            let stops = self.outcome.stops.iter();
            let mut of_entry = stops.filter(|stop| stop.entry == *entry);
            of_entry.any(|stop| stop.lifted.is_some())
        });
        Some(Conditions {
            axes: Axes::of(
                self.opened.section_rules(&self.entries, &self.stands)?,
                entries,
            )?,
            pass: self.outcome.pass_mark,
            enough_warnings: enough,
            warnings_lifted: lifted,
        })
    }

    /// The marks that an entry is given.
    pub fn given(&self, entry: &Entry<'_>) -> Option<Marks> {
        self.outcome.criterion(&entry.id)?.marks
    }
}

impl Parts {
    /// The same with everything uncertain in one cluster.
    pub fn wide(self) -> Self {
        Self {
            clusters: vec![Cluster::wide(&self.clusters)],
            ..self
        }
    }

    /// What does not vary: the units without a measured member.
    pub fn base(&self) -> Base {
        let mut base = Base {
            sums: vec![0; self.conditions.axes.count()],
            stops: false,
            warnings: 0,
        };
        let fixed = self
            .units
            .iter()
            .filter_map(|unit| match unit.ways.as_slice() {
                [way] => Some(way),
                _ => None,
            });
        for way in fixed {
            for (axis, units) in &way.sums {
                if let Some(sum) = base.sums.get_mut(*axis) {
                    *sum += units;
                }
            }
            base.stops |= way.stops;
            base.warnings = base.warnings.saturating_add(way.warnings);
        }
        base
    }
}
