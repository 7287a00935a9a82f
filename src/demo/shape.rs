//! The sizes that a piece came out with.

use std::collections::{BTreeMap, BTreeSet};

use super::aim::{FARTHEST, place, spread, tidy};
use super::amount::{add, exact_text, less, share};
use super::chance::Chance;
use super::nominal::nominal;
use super::slots::{held_against, measured};
use crate::marking::{Bands, Facts, Marking, ReadingFact, mark};
use crate::quantity::{Dimension, Exact};
use crate::rubric::{Effect, Entry, Kind, Rubric, Slot};

/// Sizes by slot, each in base units.
pub(super) type Sizes = BTreeMap<String, Vec<Exact>>;

/// Draws the sizes of one piece.
///
/// The rubric is asked for its bands by marking what is settled so far: a target that
/// waits for a reading has them once the reading is there.
pub(super) fn sizes(
    rubric: &Rubric,
    skill: &dyn Fn(Option<&str>) -> i64,
    chance: &mut Chance,
) -> Sizes {
    let mut shaping = Shaping {
        rubric,
        entries: rubric.entries(),
        slots: rubric.slots(),
        sizes: Sizes::new(),
        settled: BTreeSet::new(),
        skill,
        chance,
    };
    shaping.settle_named();
    // Each round settles a slot or gives one its nominal size, or is the last.
    loop {
        let marked = mark(rubric, &shaping.facts());
        let goes_on = shaping.round(&marked, |kind| matches!(kind, Kind::Toleranced(_)))
            || shaping.round(&marked, |kind| {
                matches!(kind, Kind::Paired(_) | Kind::Spread(_))
            })
            || shaping.settle_rest();
        if !goes_on {
            return shaping.sizes;
        }
    }
}

struct Shaping<'a> {
    rubric: &'a Rubric,
    entries: Vec<Entry<'a>>,
    slots: Vec<Slot<'a>>,
    sizes: Sizes,
    settled: BTreeSet<String>,
    skill: &'a dyn Fn(Option<&str>) -> i64,
    chance: &'a mut Chance,
}

impl Shaping<'_> {
    fn facts(&self) -> Facts {
        let readings = self.slots.iter().filter_map(|slot| {
            let texts = self.sizes.get(&slot.id)?.iter();
            let texts = texts.map(|size| ReadingFact::of(exact_text(slot.dimension, *size)));
            Some((slot.id.clone(), texts.collect()))
        });
        Facts {
            readings: readings.collect(),
            ..Facts::default()
        }
    }

    /// Named readings that no criterion measures.
    fn settle_named(&mut self) {
        let held = self
            .entries
            .iter()
            .flat_map(|entry| measured(self.rubric, entry));
        let held: BTreeSet<String> = held.collect();
        let named: Vec<usize> = (0..self.slots.len())
            .filter(|at| {
                let slot = self.slots.get(*at);
                slot.is_some_and(|slot| slot.is_named && !held.contains(&slot.id))
            })
            .collect();
        for at in named {
            self.settle_nominal(at);
        }
    }

    /// Everything that is left, at its nominal size.
    fn settle_rest(&mut self) -> bool {
        let open = |slot: &Slot<'_>| !self.settled.contains(&slot.id);
        let rest: Vec<usize> = (0..self.slots.len())
            .filter(|at| self.slots.get(*at).is_some_and(open))
            .collect();
        for at in &rest {
            self.settle_nominal(*at);
        }
        !rest.is_empty()
    }

    fn settle_nominal(&mut self, at: usize) {
        let Some(slot) = self.slots.get(at) else {
            return;
        };
        let (id, dimension) = (slot.id.clone(), slot.dimension);
        let (size, members) = (self.nominal(&id), slot.members);
        let sizes = (0..members).map(|_| {
            // About a hundredth either way.
            let off = share(size, self.chance.bell() / 120);
            tidy(dimension, add(size, off))
        });
        let sizes = sizes.collect();
        self.settle(id, sizes);
    }

    fn nominal(&self, id: &str) -> Exact {
        let entry = self
            .entries
            .iter()
            .find(|entry| measured(self.rubric, entry).iter().any(|slot| slot == id));
        let slot = self.slots.iter().find(|slot| slot.id == id);
        slot.map_or(Exact::ZERO, |slot| nominal(self.rubric, slot, entry))
    }

    fn settle(&mut self, id: String, sizes: Vec<Exact>) {
        self.settled.insert(id.clone());
        self.sizes.insert(id, sizes);
    }

    /// Settles what the entries of these kinds measure, where their bands are known.
    fn round(&mut self, marked: &Marking, wanted: fn(&Kind) -> bool) -> bool {
        let mut goes_on = false;
        for (at, result) in marked.criteria.iter().enumerate() {
            let Some(entry) = self.entries.get(at).filter(|e| wanted(&e.criterion.kind)) else {
                continue;
            };
            let (criterion, slots) = (entry.criterion, measured(self.rubric, entry));
            if slots.iter().all(|id| self.settled.contains(id)) {
                continue;
            }
            let bands = result.measured.as_ref().map(|measured| &measured.bands);
            let Some(bands) = bands else {
                goes_on |= self.give_nominal(at, &slots);
                continue;
            };
            let skill = (self.skill)(criterion.step.as_deref());
            let dimension = criterion.scale().map_or(Dimension::Length, |s| s.dimension);
            match (&criterion.kind, slots.as_slice()) {
                (Kind::Toleranced(_), [slot]) => {
                    let size = tidy(dimension, self.draw(bands, skill, dimension));
                    self.settle(slot.clone(), vec![size]);
                }
                (Kind::Paired(_), [left, right]) => {
                    let apart = self.draw(bands, skill, dimension);
                    self.settle_pair(left, right, apart, dimension);
                }
                (Kind::Spread(kind), [slot]) => {
                    let most = bands.bands.first().and_then(|band| band.reach.high);
                    let sizes = self.series(slot, kind.count, most, skill, dimension);
                    self.settle(slot.clone(), sizes);
                }
                _ => continue,
            }
            goes_on = true;
        }
        goes_on
    }

    /// A pair or series whose limits are a share of its own mean has none before it
    /// has sizes: it begins without any difference.
    fn give_nominal(&mut self, at: usize, slots: &[String]) -> bool {
        let waits = self.entries.get(at).is_none_or(|entry| {
            let mut needed = held_against(self.rubric, entry).into_iter();
            matches!(entry.criterion.kind, Kind::Toleranced(_))
                || needed.any(|id| !self.settled.contains(&id))
        });
        if waits || slots.iter().all(|id| self.sizes.contains_key(id)) {
            return false;
        }
        for id in slots {
            let members = self.slots.iter().find(|slot| slot.id == *id);
            let members = members.map_or(1, |slot| slot.members);
            let sizes = (0..members).map(|_| self.nominal(id)).collect();
            self.sizes.entry(id.clone()).or_insert(sizes);
        }
        true
    }

    fn settle_pair(&mut self, left: &str, right: &str, apart: Exact, dimension: Dimension) {
        let settled = |this: &Self, id: &str| {
            let first = this.sizes.get(id).and_then(|sizes| sizes.first()).copied();
            first.filter(|_| this.settled.contains(id))
        };
        let (left_size, right_size) = match (settled(self, left), settled(self, right)) {
            (Some(size), _) => (size, less(size, apart)),
            (None, Some(size)) => (add(size, apart), size),
            (None, None) => {
                let size = self.nominal(left);
                let size = add(size, share(size, self.chance.bell() / 120));
                (size, less(size, apart))
            }
        };
        self.settle(left.to_owned(), vec![tidy(dimension, left_size)]);
        self.settle(right.to_owned(), vec![tidy(dimension, right_size)]);
    }

    fn series(
        &mut self,
        slot: &str,
        count: u32,
        most: Option<Exact>,
        skill: i64,
        dimension: Dimension,
    ) -> Vec<Exact> {
        let mean = self.nominal(slot);
        let most = most.unwrap_or_else(|| share(mean, 50));
        let spread = spread(skill);
        let members = (0..count).map(|_| {
            // The range of a few members is about twice their deviation.
            let off = share(most, self.bell() * spread / 2000);
            tidy(dimension, add(mean, off))
        });
        members.collect()
    }

    fn bell(&mut self) -> i64 {
        self.chance.bell().clamp(-FARTHEST, FARTHEST)
    }

    /// A value for these bands; not one that stops, which is left to the one piece that
    /// is stopped.
    fn draw(&mut self, bands: &Bands, skill: i64, dimension: Dimension) -> Exact {
        let mut off = self.bell() * spread(skill) / 1000;
        for _ in 0..8 {
            let value = place(bands, off, dimension);
            if bands.at(value).effect != Effect::Stop {
                return value;
            }
            off /= 2;
        }
        place(bands, 0, dimension)
    }
}
