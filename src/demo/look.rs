//! What an examiner enters on the sheet of a piece.

use std::collections::BTreeSet;

use super::amount::minutes_text;
use super::chance::Chance;
use super::people::Marker;
use super::piece::Made;
use super::remarks::{on_entry, on_whole};
use super::slots::{held_against, measured};
use super::typed::Hand;
use crate::command::Edit;
use crate::marking::{CriterionResult, Facts, Pause, State, mark_in};
use crate::quantity::{Dimension, Exact, Quantity, Unit};
use crate::rubric::{Effect, Entry, Fault, Judged, Kind, Rubric};

/// One look at one piece.
pub(super) struct Look<'a> {
    pub rubric: &'a Rubric,
    pub made: &'a Made,
    pub marker: &'a Marker,
    pub unit: Unit,
    /// What the learner's last piece of this rubric came to, in per cent.
    pub last: Option<Exact>,
    /// The learner's habit: which of several faults is usual.
    pub habit: i64,
}

/// What was entered, in the order of the sheet, and what it comes to.
pub(super) struct Seen {
    pub edits: Vec<Edit>,
    pub percent: Exact,
}

impl Look<'_> {
    /// Fills the sheet in.
    pub fn fill(&self, chance: &mut Chance) -> Seen {
        let entries = self.rubric.entries();
        let mut facts = self.facts(&entries, chance);
        self.settle_intervals(&mut facts);
        let marked = mark_in(self.rubric, &facts, self.unit);
        let mut edits = Vec::new();
        for (entry, result) in entries.iter().zip(&marked.criteria) {
            if let Some(fault) = self.fault_of(entry, result, chance) {
                facts.faults.insert(entry.id.clone(), vec![fault]);
            }
            if let Some(comment) = on_entry(entry, result, chance) {
                edits.push(Edit::SetComment {
                    entry: Some(entry.id.clone()),
                    comment: Some(comment),
                });
            }
        }
        // Faults may cost marks: what is said of the whole comes after them.
        let marked = mark_in(self.rubric, &facts, self.unit);
        let said = on_whole(self.rubric, &entries, &marked, self.last, chance);
        edits.extend(said.map(|comment| Edit::SetComment {
            entry: None,
            comment: Some(comment),
        }));
        Seen {
            percent: marked.percent,
            edits: as_edits(self.rubric, facts).chain(edits).collect(),
        }
    }

    fn facts(&self, entries: &[Entry<'_>], chance: &mut Chance) -> Facts {
        let hand = self.hand();
        let left_out = self.left_out(entries);
        let mut facts = Facts {
            states: self.made.states.clone(),
            ..Facts::default()
        };
        for slot in self.rubric.slots() {
            let sizes = self.made.sizes.get(&slot.id);
            if let Some(sizes) = sizes.filter(|_| !left_out.contains(&slot.id)) {
                let readings = hand.readings(&slot, sizes, chance);
                facts.readings.insert(slot.id, readings);
            }
        }
        let valued = entries
            .iter()
            .filter(|entry| !self.made.states.contains_key(&entry.id));
        for entry in valued {
            let id = entry.id.clone();
            if let Some(level) = self.level(entry, chance) {
                facts.levels.insert(id, level);
            } else if let Some(counted) = self.made.tallies.get(&entry.id) {
                facts.tallies.insert(id, tally_text(*counted));
            } else if let Some(faults) = self.made.faults.get(&entry.id) {
                let stops = |id: &String| {
                    let mut faults = entry.criterion.faults.iter();
                    faults.any(|fault| fault.id == *id && fault.effect == Effect::Stop)
                };
                // One in twelve is overlooked.
                let seen = faults.iter().filter(|id| stops(id) || !chance.happens(80));
                facts.faults.insert(id, seen.cloned().collect());
            }
        }
        facts.pauses = self.pauses(entries, &facts, chance);
        facts
    }

    fn hand(&self) -> Hand<'_> {
        Hand {
            rubric: self.rubric,
            marker: self.marker,
            unit: self.unit,
        }
    }

    /// Slots of parts that are not there, unless others are held against them.
    fn left_out(&self, entries: &[Entry<'_>]) -> BTreeSet<String> {
        let not_there = |entry: &&Entry<'_>| {
            let state = self.made.states.get(&entry.id).map(|fact| fact.state);
            matches!(
                state,
                Some(State::NotMade | State::NotApplicable | State::CannotMeasure)
            )
        };
        let (gone, there): (Vec<&Entry<'_>>, Vec<&Entry<'_>>) = entries.iter().partition(not_there);
        let needed = there.into_iter().flat_map(|entry| {
            let own = measured(self.rubric, entry);
            own.into_iter().chain(held_against(self.rubric, entry))
        });
        let needed: BTreeSet<String> = needed.collect();
        let gone = gone.into_iter();
        let gone = gone.flat_map(|entry| measured(self.rubric, entry));
        gone.filter(|slot| !needed.contains(slot)).collect()
    }

    fn level(&self, entry: &Entry<'_>, chance: &mut Chance) -> Option<String> {
        let quality = self.made.quality.get(&entry.id)?;
        let seen = quality + self.marker.kindness + chance.bell() * 5 / 100;
        let seen = seen.clamp(0, 999);
        let Kind::Judged(judged) = &entry.criterion.kind else {
            return None;
        };
        match judged {
            Judged::Levels(levels) => {
                let count = i64::try_from(levels.len()).ok()?;
                let at = usize::try_from((999 - seen) * count / 1000).ok()?;
                let level = levels.get(at)?;
                // What stops is not given for poor work alone.
                let before = at.checked_sub(1).and_then(|at| levels.get(at));
                let stops = level.effect == Effect::Stop && seen > 40;
                Some(before.filter(|_| stops).unwrap_or(level).id.clone())
            }
            Judged::Numbers { allowed, .. } => {
                let count = i64::try_from(allowed.len()).ok()?;
                let at = usize::try_from(seen * count / 1000).ok()?;
                Some(allowed.get(at)?.exact_text())
            }
        }
    }

    fn pauses(&self, entries: &[Entry<'_>], facts: &Facts, chance: &mut Chance) -> Vec<Pause> {
        let timed = entries.iter().any(|entry| {
            let is_time = matches!(&entry.criterion.kind, Kind::Tally(tally) if tally.is_time);
            is_time && facts.tallies.contains_key(&entry.id)
        });
        if !timed || !chance.happens(60) {
            return Vec::new();
        }
        let reasons = [
            "fire tended for another piece",
            "waited for the hardie hole",
        ];
        let reason = chance.pick(&reasons).copied().unwrap_or_default();
        vec![Pause {
            duration: format!("{} min", 1 + chance.below(4)),
            reason: reason.to_owned(),
        }]
    }

    /// An interval that lies across a limit is measured once more.
    fn settle_intervals(&self, facts: &mut Facts) {
        let marked = mark_in(self.rubric, facts, self.unit);
        let missing: BTreeSet<&String> = marked.missing.iter().collect();
        let entries = self.rubric.entries();
        let open = entries.iter().filter(|entry| missing.contains(&entry.id));
        let open = open.flat_map(|entry| measured(self.rubric, entry));
        let open: BTreeSet<String> = open.collect();
        for slot in self.rubric.slots() {
            let Some(sizes) = self.made.sizes.get(&slot.id) else {
                continue;
            };
            if open.contains(&slot.id) && facts.readings.contains_key(&slot.id) {
                let plain = self.hand().plain(&slot, sizes);
                facts.readings.insert(slot.id, plain);
            }
        }
    }

    /// A typical fault where marks were lost, the learner's usual one more often.
    fn fault_of(
        &self,
        entry: &Entry<'_>,
        result: &CriterionResult,
        chance: &mut Chance,
    ) -> Option<String> {
        let lost = result.marks.is_some_and(|marks| marks < result.out_of);
        let listed = matches!(entry.criterion.kind, Kind::Faults(_));
        if !lost || listed || self.made.states.contains_key(&entry.id) || !chance.happens(450) {
            return None;
        }
        let above = is_above(result);
        let faults = entry.criterion.faults.iter();
        let faults = faults.filter(|fault| fault.effect == Effect::Noted);
        let fitting: Vec<&Fault> = faults.filter(|fault| fits(&fault.name, above)).collect();
        let count = i64::try_from(fitting.len()).ok()?;
        let usual = usize::try_from(self.habit.checked_rem(count)?).ok()?;
        let usual = fitting.get(usual).copied();
        let other = chance.pick(&fitting).copied();
        let fault = if chance.happens(700) { usual } else { other };
        fault.map(|fault| fault.id.clone())
    }
}

/// Whether the value is above its target; `None` where there is neither.
fn is_above(result: &CriterionResult) -> Option<bool> {
    let measured = result.measured.as_ref()?;
    let value = measured.value?.single()?;
    Some(value > measured.bands.target?)
}

/// Whether a fault's name can be said of a size above or below its target: "too low" is
/// not said of a clip that is too high.
fn fits(name: &str, above: Option<bool>) -> bool {
    const SMALL: [&str; 9] = [
        "low", "short", "thin", "narrow", "small", "shallow", "close", "little", "fine",
    ];
    const LARGE: [&str; 9] = [
        "high", "long", "thick", "wide", "big", "deep", "open", "much", "coarse",
    ];
    let name = name.to_lowercase();
    let says = |words: &[&str]| words.iter().any(|word| name.contains(word));
    match (says(&SMALL), says(&LARGE), above) {
        (true, false, Some(above)) => !above,
        (false, true, Some(above)) => above,
        _ => true,
    }
}

fn tally_text(counted: Quantity) -> String {
    if counted.dimension == Dimension::Duration {
        minutes_text(counted)
    } else {
        counted.base.to_string()
    }
}

/// One edit a field, readings first, as a sheet is filled in.
fn as_edits(rubric: &Rubric, mut facts: Facts) -> impl Iterator<Item = Edit> {
    let mut edits = Vec::new();
    for slot in rubric.slots() {
        if let Some(readings) = facts.readings.remove(&slot.id) {
            let entry = slot.id;
            edits.push(Edit::SetReadings { entry, readings });
        }
    }
    for Entry { id: entry, .. } in rubric.entries() {
        if let Some(level) = facts.levels.remove(&entry) {
            let (entry, level) = (entry.clone(), Some(level));
            edits.push(Edit::SetLevel { entry, level });
        }
        if let Some(tally) = facts.tallies.remove(&entry) {
            let (entry, tally) = (entry.clone(), Some(tally));
            edits.push(Edit::SetTally { entry, tally });
        }
        if let Some(faults) = facts.faults.remove(&entry) {
            let (entry, faults) = (entry.clone(), Some(faults));
            edits.push(Edit::SetFaults { entry, faults });
        }
        if let Some(state) = facts.states.remove(&entry) {
            let state = Some(state);
            edits.push(Edit::SetState { entry, state });
        }
    }
    if !facts.pauses.is_empty() {
        let pauses = facts.pauses;
        edits.push(Edit::SetPauses { pauses });
    }
    edits.into_iter()
}
