//! A piece as it came out: what every examiner then looks at.

use std::collections::{BTreeMap, BTreeSet};

use super::amount::{grain, round, share};
use super::chance::Chance;
use super::shape::{Sizes, sizes};
use crate::marking::{State, StateFact};
use crate::quantity::{Dimension, Exact, Marks, Quantity};
use crate::rubric::{
    BeyondAllowance, Criterion, Effect, Entry, Fault, Kind, NotApplicable, Rubric, Tally,
};

/// What is true of a piece, whoever looks.
#[derive(Debug, Clone, Default)]
pub(super) struct Made {
    /// By slot, in base units.
    pub sizes: Sizes,
    /// By judged entry, in thousandths.
    pub quality: BTreeMap<String, i64>,
    /// By tally.
    pub tallies: BTreeMap<String, Quantity>,
    /// By entry that is nothing but faults.
    pub faults: BTreeMap<String, Vec<String>>,
    /// Entries that are not simply valued.
    pub states: BTreeMap<String, StateFact>,
    /// The time was up before it was done.
    pub ran_out: bool,
}

impl Made {
    /// What a learner with this skill in each step makes.
    pub fn by(rubric: &Rubric, skill: &dyn Fn(Option<&str>) -> i64, chance: &mut Chance) -> Self {
        let mut made = Self {
            sizes: sizes(rubric, skill, chance),
            ..Self::default()
        };
        for entry in rubric.entries() {
            let skill = skill(entry.criterion.step.as_deref());
            made.make(&entry, skill, chance);
        }
        made
    }

    fn make(&mut self, entry: &Entry<'_>, skill: i64, chance: &mut Chance) {
        let id = entry.id.clone();
        if let Some(state) = some_state(entry.criterion, chance) {
            self.states.insert(id.clone(), state);
        }
        match &entry.criterion.kind {
            Kind::Toleranced(_) | Kind::Paired(_) | Kind::Spread(_) => {}
            Kind::Judged(_) => {
                let quality = skill + chance.bell() * 9 / 100;
                self.quality.insert(id, quality.clamp(0, 1000));
            }
            Kind::Tally(tally) => {
                let counted = counted(tally, skill, chance);
                let over = tally.allowance.minus(counted);
                self.ran_out |= tally.is_time
                    && tally.beyond == BeyondAllowance::AllMarks
                    && over.is_some_and(|left| left.base.is_negative());
                self.tallies.insert(id, counted);
            }
            Kind::Faults(_) => {
                let faults = entry.criterion.faults.iter();
                let seen = faults.filter(|fault| chance.happens(likely(fault, skill)));
                let seen: Vec<&Fault> = seen.collect();
                // What costs marks is now and then seen in two places.
                let twice = |fault: &Fault, chance: &mut Chance| {
                    usize::from(fault.effect == Effect::Noted && chance.happens(150)) + 1
                };
                let seen = seen
                    .into_iter()
                    .flat_map(|fault| std::iter::repeat_n(fault.id.clone(), twice(fault, chance)));
                let seen = seen.collect();
                self.faults.insert(id, seen);
            }
        }
    }

    /// The examiner stops it: a fault that stops is seen, and what belongs to the later
    /// steps is not made. Nothing where the rubric has no such fault.
    pub fn stop(&mut self, rubric: &Rubric) {
        let Some((entry, fault)) = stopping_fault(rubric) else {
            return;
        };
        self.faults.entry(entry).or_default().push(fault);
        let late: BTreeSet<&str> = rubric
            .steps
            .iter()
            .skip(rubric.steps.len() / 2)
            .map(|step| step.id.as_str())
            .collect();
        for entry in rubric.entries() {
            let criterion = entry.criterion;
            let is_late = criterion
                .step
                .as_deref()
                .is_some_and(|step| late.contains(step));
            let is_work = criterion.scale().is_some() || matches!(criterion.kind, Kind::Judged(_));
            if is_late && is_work {
                let state = StateFact {
                    state: State::NotMade,
                    reason: Some("stopped before it was made".to_owned()),
                    marks: None,
                };
                self.states.insert(entry.id, state);
            }
        }
    }
}

/// The first fault of the rubric that stops, in a list of nothing but faults if one has
/// it: its entry and its id.
pub(super) fn stopping_fault(rubric: &Rubric) -> Option<(String, String)> {
    let entries = rubric.entries();
    let of = |entry: &Entry<'_>| {
        let mut faults = entry.criterion.faults.iter();
        let stops = faults.find(|fault| fault.effect == Effect::Stop)?;
        Some((entry.id.clone(), stops.id.clone()))
    };
    let lists = entries
        .iter()
        .filter(|entry| matches!(entry.criterion.kind, Kind::Faults(_)));
    lists.chain(&entries).find_map(of)
}

/// In thousandths.
fn likely(fault: &Fault, skill: i64) -> i64 {
    let lack = 1000 - skill;
    match fault.effect {
        Effect::Noted => lack * 45 / 100,
        Effect::Warn => lack * 8 / 100,
        // Left to the one piece that is stopped.
        Effect::Stop => 0,
    }
}

fn counted(tally: &Tally, skill: i64, chance: &mut Chance) -> Quantity {
    let lack = 1000 - skill;
    let factor = match tally.dimension {
        Dimension::Duration => 830 + lack * 3 / 10 + chance.bell() * 7 / 100,
        _ => 940 + lack * 4 / 10 + chance.bell() * 6 / 100,
    };
    let unit = grain(tally.dimension);
    let counted = round(share(tally.allowance.base, factor), unit).max(unit);
    let most = tally.hard_limit.map_or(counted, |limit| limit.base);
    Quantity::new(tally.dimension, counted.min(most).max(Exact::ZERO))
}

/// Seldom: what does not apply here, and what cannot be measured.
fn some_state(criterion: &Criterion, chance: &mut Chance) -> Option<StateFact> {
    let state = |state, reason: &str, marks: Option<Marks>| StateFact {
        state,
        reason: Some(reason.to_owned()),
        marks: marks.map(Marks::exact_text),
    };
    if criterion.not_applicable != NotApplicable::Refused && chance.happens(120) {
        return Some(state(State::NotApplicable, "not asked for this time", None));
    }
    if criterion.scale().is_some() && chance.happens(3) {
        let mut marks = criterion.possible_marks();
        marks.retain(|marks| *marks > Marks::ZERO);
        let marks = chance.pick(&marks).copied();
        let reason = "pitted by scale where it is measured";
        return Some(state(State::CannotMeasure, reason, marks));
    }
    None
}
