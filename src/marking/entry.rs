//! One line of the mark sheet: its own rule, then state, faults and weight.

use crate::quantity::{Exact, Marks, Unit};
use crate::rubric::{Criterion, Effect, Entry, Fault, Kind, NotApplicable, Rubric};

use super::byeye::{find_judged, find_tally};
use super::facts::{Facts, State, StateFact};
use super::found::Found;
use super::measured::Gauge;
use super::opened::EntryOutcome;
use super::result::{CriterionResult, Problem, ResultState};
use super::taken::Slots;
use super::words::{also, with_marks};

/// The result of one entry, with what it does to the award.
pub(super) struct Judgement {
    pub result: CriterionResult,
    pub stops: Vec<String>,
    pub warnings: u32,
    pub problems: Vec<Problem>,
}

pub(super) struct Sheet<'a> {
    pub rubric: &'a Rubric,
    pub facts: &'a Facts,
    pub slots: &'a Slots<'a>,
    pub unit: Unit,
}

impl Sheet<'_> {
    /// Marks one entry; `None` on overflow.
    pub fn judge(&self, entry: &Entry<'_>) -> Option<Judgement> {
        let (criterion, found) = (entry.criterion, self.find(entry));
        let mut judgement = Judgement {
            result: CriterionResult {
                out_of: criterion.out_of()?,
                ..CriterionResult::without_marks(&entry.id, "")
            },
            stops: Vec::new(),
            warnings: 0,
            problems: Vec::new(),
        };
        let seen = self.faults_seen(entry, &mut judgement);
        judgement.result.measured = found.measured.clone();
        match self.facts.states.get(&entry.id) {
            Some(fact) => judgement.apply_state(criterion, fact)?,
            None => judgement.apply_found(criterion, found, &seen)?,
        }
        judgement.apply_effects(&seen);
        Some(judgement)
    }

    /// What an entry would come to if its value met `own` marks and `effect`, without a
    /// word; `None` on overflow.
    pub fn outcome_as(
        &self,
        entry: &Entry<'_>,
        own: Marks,
        effect: Effect,
    ) -> Option<EntryOutcome> {
        let criterion = entry.criterion;
        let noted = self.facts.faults.get(&entry.id);
        let seen = seen(criterion, noted.map_or(&[][..], Vec::as_slice));
        let marks = after_faults(criterion, own, &seen)?;
        let below = criterion.stops_below.is_some_and(|least| marks < least);
        let by_fault = seen.iter().any(|(fault, _)| fault.effect == Effect::Stop);
        let warning = u32::from(effect == Effect::Warn);
        Some(EntryOutcome {
            marks: Some(marks.times(criterion.weight)?),
            out_of: criterion.out_of()?,
            stops: effect == Effect::Stop || below || by_fault,
            warnings: warning.saturating_add(warnings(&seen)),
        })
    }

    fn find(&self, entry: &Entry<'_>) -> Found {
        let facts = self.facts;
        match &entry.criterion.kind {
            Kind::Toleranced(_) | Kind::Paired(_) | Kind::Spread(_) => {
                let gauge = Gauge {
                    rubric: self.rubric,
                    entry,
                    slots: self.slots,
                    sheet: self.unit,
                };
                gauge.find()
            }
            Kind::Tally(tally) => find_tally(tally, &entry.id, facts),
            Kind::Judged(judged) => {
                find_judged(judged, facts.levels.get(&entry.id).map(String::as_str))
            }
            Kind::Faults(list) => match facts.faults.get(&entry.id).map(Vec::is_empty) {
                None => Found::missing("not looked at yet"),
                Some(is_clean) => {
                    let why = if is_clean { "no faults" } else { "faults seen" };
                    Found::valued(list.marks, why, Effect::Noted).apart("", "")
                }
            },
        }
    }

    /// Known faults with how often each was seen; unknown ones are problems.
    fn faults_seen<'e>(
        &self,
        entry: &Entry<'e>,
        judgement: &mut Judgement,
    ) -> Vec<(&'e Fault, u32)> {
        let noted = self
            .facts
            .faults
            .get(&entry.id)
            .map_or(&[][..], Vec::as_slice);
        let faults = &entry.criterion.faults;
        for id in noted {
            if !faults.iter().any(|fault| &fault.id == id) {
                let known: Vec<&str> = faults.iter().map(|fault| fault.id.as_str()).collect();
                let message = if known.is_empty() {
                    format!("there is no fault `{id}` here, nor any other; take it out")
                } else {
                    let known = known.join(", ");
                    format!("there is no fault `{id}` here; use one of {known}")
                };
                judgement.problems.push(Problem {
                    id: entry.id.clone(),
                    message,
                });
            }
        }
        let seen = seen(entry.criterion, noted);
        judgement.result.faults = seen
            .iter()
            .map(|(fault, times)| (fault.id.clone(), *times))
            .collect();
        seen
    }
}

impl Judgement {
    fn problem(&mut self, message: String) {
        let id = self.result.id.clone();
        self.result.reason.clone_from(&message);
        self.result.because.clone_from(&message);
        self.problems.push(Problem { id, message });
    }

    fn apply_state(&mut self, criterion: &Criterion, fact: &StateFact) -> Option<()> {
        let said = fact
            .reason
            .as_deref()
            .map(str::trim)
            .filter(|reason| !reason.is_empty());
        let with_reason = |word: &str| match said {
            Some(reason) => format!("{word} ({reason})"),
            None => word.to_owned(),
        };
        let word = with_reason(fact.state.word());
        let said = said.unwrap_or_default();
        let with_said = |words: &str| {
            let mut because = said.to_owned();
            also(&mut because, words);
            because
        };
        match fact.state {
            State::NotMade => {
                self.result.state = ResultState::NotMade;
                self.give(criterion, Marks::ZERO, word, with_said(""))?;
            }
            State::CannotMeasure => {
                self.result.state = ResultState::CannotMeasure;
                match fact.decided(criterion.most_unweighted()) {
                    Err(message) => self.problem(message),
                    Ok(_) if said.is_empty() => {
                        self.problem("can't be measured: write the reason".to_owned());
                    }
                    Ok(None) => {
                        let decides = "the examiner decides the marks";
                        self.result.reason = format!("{word}: {decides}");
                        self.result.because = with_said(decides);
                    }
                    Ok(Some(marks)) => {
                        let decided = "by the examiner's decision";
                        let why = format!("{word}, {decided}");
                        self.give(criterion, marks, why, with_said(decided))?;
                    }
                }
            }
            State::NotApplicable => self.leave_out(criterion, &word, &with_said)?,
        }
        Some(())
    }

    fn leave_out(
        &mut self,
        criterion: &Criterion,
        word: &str,
        with_said: &dyn Fn(&str) -> String,
    ) -> Option<()> {
        match criterion.not_applicable {
            NotApplicable::Refused => {
                let message = "the rubric does not allow not applicable here; use not made, or \
                               can't be measured";
                self.problem(message.to_owned());
            }
            NotApplicable::Rescale => {
                self.result.state = ResultState::NotApplicable;
                self.result.out_of = Marks::ZERO;
                self.result.marks = Some(Marks::ZERO);
                let leave = "its marks leave the total";
                self.result.reason = format!("{word}: {leave}");
                self.result.because = with_said(leave);
            }
            NotApplicable::Keep => {
                self.result.state = ResultState::NotApplicable;
                let out_of = self.result.out_of;
                self.result.marks = Some(Marks::ZERO);
                self.result.reason = with_marks(word, Marks::ZERO, out_of);
                self.result.because = with_said("");
            }
        }
        Some(())
    }

    fn apply_found(
        &mut self,
        criterion: &Criterion,
        found: Found,
        seen: &[(&Fault, u32)],
    ) -> Option<()> {
        if let Some(message) = found.problem {
            self.problem(message);
            return Some(());
        }
        let Some(own) = found.marks else {
            self.result.reason = found.why;
            self.result.because = found.because;
            return Some(());
        };
        let marks = after_faults(criterion, own, seen)?;
        let (mut why, mut because) = (found.why, found.because);
        for (fault, times) in seen {
            let words = fault_in_words(fault, *times);
            also(&mut why, &words);
            also(&mut because, &words);
        }
        self.result.value = found.value;
        self.result.state = ResultState::Valued;
        if found.effect == Effect::Stop {
            self.stops.push(why.clone());
        }
        self.warnings += u32::from(found.effect == Effect::Warn);
        self.give(criterion, marks, why, because)
    }

    /// Writes marks, weight counted, and looks whether they stop.
    fn give(
        &mut self,
        criterion: &Criterion,
        marks: Marks,
        mut why: String,
        mut because: String,
    ) -> Option<()> {
        let counted = marks.times(criterion.weight)?;
        let before_weight = if criterion.weight == Exact::ONE {
            String::new()
        } else {
            let weight = Marks(criterion.weight);
            format!("{marks} before the weight of {weight}")
        };
        also(&mut why, &before_weight);
        also(&mut because, &before_weight);
        self.result.because = because;
        self.result.marks = Some(counted);
        self.result.reason = with_marks(&why, counted, self.result.out_of);
        if let Some(least) = criterion.stops_below.filter(|least| marks < *least) {
            let weighted = if before_weight.is_empty() {
                ""
            } else {
                " before the weight"
            };
            self.stops
                .push(format!("{marks} marks{weighted}, below {least}"));
        }
        Some(())
    }

    /// Faults stop and warn whether or not the criterion has marks yet.
    fn apply_effects(&mut self, seen: &[(&Fault, u32)]) {
        self.warnings = self.warnings.saturating_add(warnings(seen));
        let stopping = seen
            .iter()
            .filter(|(fault, _)| fault.effect == Effect::Stop);
        self.stops
            .extend(stopping.map(|(fault, _)| fault.name.clone()));
    }
}

/// Known faults of a criterion with how often each was noted.
fn seen<'e>(criterion: &'e Criterion, noted: &[String]) -> Vec<(&'e Fault, u32)> {
    let count = |fault: &Fault| noted.iter().filter(|id| **id == fault.id).count();
    let faults = criterion.faults.iter();
    faults
        .map(|fault| (fault, u32::try_from(count(fault)).unwrap_or(u32::MAX)))
        .filter(|(_, times)| *times > 0)
        .collect()
}

/// What is left of `own` marks, before the weight; `None` on overflow.
fn after_faults(criterion: &Criterion, own: Marks, seen: &[(&Fault, u32)]) -> Option<Marks> {
    let floor = match &criterion.kind {
        Kind::Faults(list) => list.least,
        _ => Marks::ZERO,
    };
    Some(own.minus(cost_of_faults(seen)?)?.max(floor))
}

/// Warnings that the faults give.
fn warnings(seen: &[(&Fault, u32)]) -> u32 {
    let warning = seen
        .iter()
        .filter(|(fault, _)| fault.effect == Effect::Warn);
    warning.fold(0, |sum, (_, times)| sum.saturating_add(*times))
}

fn cost_of_faults(seen: &[(&Fault, u32)]) -> Option<Marks> {
    seen.iter().try_fold(Marks::ZERO, |sum, (fault, times)| {
        sum.plus(cost_of_fault(fault, *times)?)
    })
}

fn cost_of_fault(fault: &Fault, times: u32) -> Option<Marks> {
    let cost = fault.deduct.times(Exact::whole(times.into()))?;
    Some(fault.most.map_or(cost, |most| cost.min(most)))
}

fn fault_in_words(fault: &Fault, times: u32) -> String {
    let often = if times > 1 {
        format!(" {times} times")
    } else {
        String::new()
    };
    let cost = match cost_of_fault(fault, times) {
        Some(cost) if cost > Marks::ZERO => format!(", {cost} off"),
        _ => String::new(),
    };
    format!("{}{often}{cost}", fault.name)
}
