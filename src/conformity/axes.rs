use crate::marking::SectionRule;
use crate::quantity::Marks;

use super::lattice::Lattice;
use super::units::{Unit, Way};

/// What the sums of sections are kept by. A section with a cap or a minimum has an axis of
/// its own, in units of the entries' lattice; all others count in proportion and share one,
/// in units of the total's: far fewer states than an axis for each.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Axes {
    rules: Vec<SectionRule>,
    entries: Lattice,
    /// Holds whatever a section can count.
    pub total: Lattice,
}

/// One sum of an axis, as it counts.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Counted {
    /// In units of the total's lattice.
    pub units: i64,
    /// Whether it reaches the minimum that is asked for.
    pub reaches: bool,
}

impl Axes {
    /// Of sections that count by `rules`, with marks in units of `entries`; `None` on
    /// overflow.
    pub fn of(rules: Vec<SectionRule>, entries: Lattice) -> Option<Self> {
        let steps = rules.iter().map(|rule| rule.steps(entries.marks(1)));
        let steps: Vec<[Marks; 2]> = steps.collect::<Option<_>>()?;
        let total = Lattice::of(steps.into_iter().flatten())?;
        Some(Self {
            rules,
            entries,
            total,
        })
    }

    /// How many there are.
    pub fn count(&self) -> usize {
        self.rules.len() + 1
    }

    /// The axis of a section.
    pub fn of_section(&self, section: usize) -> Option<usize> {
        let rule = self.rules.get(section)?;
        let shared = self.rules.len();
        Some(if rule.is_straight() { shared } else { section })
    }

    /// How a sum on an axis counts; `None` on overflow.
    pub fn counted(&self, axis: usize, sum: i64) -> Option<Counted> {
        let Some(rule) = self.rules.get(axis) else {
            return Some(Counted {
                units: sum,
                reaches: true,
            });
        };
        let marks = rule.counted(self.entries.marks(sum))?;
        Some(Counted {
            units: self.total.units(marks)?,
            reaches: rule.minimum.is_none_or(|least| marks >= least),
        })
    }

    /// A unit whose ways add to sections, with ways that add to axes; `None` on overflow.
    pub fn unit(&self, unit: Unit) -> Option<Unit> {
        let ways = unit.ways.into_iter().map(|way| self.way(way));
        Some(Unit {
            ways: ways.collect::<Option<_>>()?,
            ..unit
        })
    }

    fn way(&self, way: Way) -> Option<Way> {
        let mut sums: Vec<(usize, i64)> = Vec::new();
        for (section, sum) in way.sums {
            let axis = self.of_section(section)?;
            let sum = if axis == section {
                sum
            } else {
                let rule = self.rules.get(section)?;
                self.total.units(rule.counted(self.entries.marks(sum))?)?
            };
            match sums.iter_mut().find(|(known, _)| *known == axis) {
                Some((_, all)) => *all = all.checked_add(sum)?,
                None => sums.push((axis, sum)),
            }
        }
        Some(Way { sums, ..way })
    }
}
