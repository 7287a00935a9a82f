//! A marking opened for a closer look: what was taken, and what each entry would come to
//! if its value lay elsewhere.

use crate::quantity::{Marks, Unit};
use crate::rubric::{CauseGroup, Effect, Entry, Rubric, Slot};

use super::causes::given_back;
use super::entry::Sheet;
use super::facts::{Facts, ReadingFact};
use super::mark::{charged, judge_each, total_up};
use super::result::Marking;
use super::taken::{Slots, Taken};
use super::total::SectionRule;

/// One marking, opened.
pub struct Opened<'a> {
    rubric: &'a Rubric,
    facts: &'a Facts,
    slots: Slots<'a>,
}

/// What an entry comes to for one place of its value, before cause groups.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct EntryOutcome {
    /// Marks, faults and weight counted; `None` while missing.
    pub marks: Option<Marks>,
    /// Marks that can be had.
    pub out_of: Marks,
    /// Whether it stops the award, unless that is lifted.
    pub stops: bool,
    /// How many warnings it gives.
    pub warnings: u32,
}

impl<'a> Opened<'a> {
    /// Reads what was taken.
    pub fn read(rubric: &'a Rubric, facts: &'a Facts) -> Self {
        Self {
            rubric,
            facts,
            slots: Slots::read(rubric, facts),
        }
    }

    /// What the readings of a slot say together; `None` where they say nothing usable.
    pub fn taken(&self, slot: &str) -> Option<&Taken> {
        self.slots.taken(slot)
    }

    /// The readings of a slot that count, in order: those that are written and were taken cold.
    pub fn counting(&self, slot: &Slot<'_>) -> Vec<&'a ReadingFact> {
        let all = self.facts.readings.get(&slot.id);
        let all = all.map_or(&[][..], Vec::as_slice).iter();
        all.filter(|fact| fact.counts()).collect()
    }

    /// The marking as [`mark`](super::mark) has it, with what each of the `entries` of the
    /// rubric comes to before causes are charged once; `None` on overflow.
    pub fn stands(&self, entries: &[Entry<'_>]) -> Option<(Marking, Vec<EntryOutcome>)> {
        let sheet = self.sheet();
        let judgements = judge_each(&sheet, entries)?;
        let outcomes = judgements.iter().map(EntryOutcome::of).collect();
        let judged = charged(self.rubric, entries, judgements)?;
        let marking = total_up(self.rubric, self.facts, entries, judged, &mut Vec::new())?;
        Some((marking, outcomes))
    }

    /// What an entry would come to if its value met `marks` and `effect`; `None` on overflow.
    pub fn met(&self, entry: &Entry<'_>, marks: Marks, effect: Effect) -> Option<EntryOutcome> {
        self.sheet().outcome_as(entry, marks, effect)
    }

    /// Whether something other than its readings decides about an entry: a state, or a
    /// reading that cannot be used.
    pub fn is_set(&self, entry: &Entry<'_>) -> bool {
        self.facts.states.contains_key(&entry.id)
    }

    /// How the sums of the sections count, in order, where `entries` come to `outcomes`;
    /// `None` on overflow.
    pub fn section_rules(
        &self,
        entries: &[Entry<'_>],
        outcomes: &[EntryOutcome],
    ) -> Option<Vec<SectionRule>> {
        let rules = self.rubric.sections.iter().map(|section| {
            let own = entries.iter().zip(outcomes);
            let own = own.filter(|(entry, _)| entry.section.id == section.id);
            let out_of = Marks::sum(own.map(|(_, outcome)| outcome.out_of))?;
            SectionRule::of(section, out_of)
        });
        rules.collect()
    }

    /// The marks of the members of a cause group once one error is charged once; `None`
    /// on overflow.
    pub fn charged_once(group: &CauseGroup, members: &[EntryOutcome]) -> Option<Vec<EntryOutcome>> {
        let losses = members.iter().map(|member| match member.marks {
            Some(marks) => member.out_of.minus(marks),
            None => Some(Marks::ZERO),
        });
        let losses: Vec<Marks> = losses.collect::<Option<_>>()?;
        if Marks::sum(losses.iter().copied())? <= group.most {
            return Some(members.to_vec());
        }
        let back = given_back(group.most, &losses)?;
        let charged = members.iter().zip(back).map(|(member, back)| {
            let marks = match member.marks {
                Some(marks) => Some(marks.plus(back)?),
                None => None,
            };
            Some(EntryOutcome { marks, ..*member })
        });
        charged.collect()
    }

    fn sheet(&self) -> Sheet<'_> {
        Sheet {
            rubric: self.rubric,
            facts: self.facts,
            slots: &self.slots,
            unit: Unit::Millimetre,
        }
    }
}

impl EntryOutcome {
    fn of(judgement: &super::entry::Judgement) -> Self {
        Self {
            marks: judgement.result.marks,
            out_of: judgement.result.out_of,
            stops: !judgement.stops.is_empty(),
            warnings: judgement.warnings,
        }
    }
}
