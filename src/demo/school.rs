//! Runs the plan through the commands that a person's acts go through.

use super::alike::{SHARED, Shared, day_between, rubric_of_most};
use super::chance::Chance;
use super::enrolment::{HAPPENED, enrolled, status_at_end};
use super::handing::{HANDING_OVER, handed_over};
use super::heats::watched;
use super::learning::Learning;
use super::look::Look;
use super::people::{LEARNERS, MARKERS, Marker};
use super::piece::{Made, stopping_fault};
use super::plan::{Course, DAY_MS, Planned, plan};
use super::remarks::{STOPPED, WITHDRAWN};
use super::{DemoError, device};
use crate::command::{
    Command, Edit, LearnerDetails, MarkAgain, RubricText, StartPiece, Who, apply,
};
use crate::quantity::{Exact, Unit};
use crate::records::{
    Day, Ended, LearnerId, Ledger, Made as Ids, MarkingId, Moment, Role, SittingKind, Stamp,
    sha256_hex,
};
use crate::rubric::{Rubric, read_rubric};

/// Most rubrics that the school works to.
const RUBRICS: usize = 5;

/// The school while its months go by.
struct School {
    rubrics: Vec<(RubricText, Rubric)>,
    ledger: Ledger,
    chance: Chance,
    /// Milliseconds since 1970 UTC; every command comes later than the last.
    clock: i64,
    learners: Vec<Learning>,
}

/// One marking to be made of a piece that is made.
struct Sheet<'a> {
    made: &'a Made,
    marker: Marker,
    role: Role,
    unit: Unit,
}

/// The ledger of the school's nine months up to `today`, by the first five of `rubrics`.
pub(super) fn ledger(rubrics: &[&str], today: Day, seed: u64) -> Result<Ledger, DemoError> {
    let rubrics = rubrics.iter().take(RUBRICS).map(|text| read(text));
    let rubrics: Vec<_> = rubrics.collect::<Result<_, _>>()?;
    let plan = plan(today, rubrics.len());
    let first = plan.first().filter(|_| !rubrics.is_empty());
    let opens = first.ok_or(DemoError::NoRubric)?.opens;
    if opens <= 0 {
        return Err(DemoError::TooEarly { today });
    }
    let mut school = School {
        rubrics,
        ledger: Ledger::default(),
        chance: Chance::of(seed),
        clock: opens - 3_600_000,
        learners: Vec::new(),
    };
    school.enrol()?;
    let alike = day_between(&plan);
    for (at, planned) in plan.iter().enumerate() {
        if let Some((_, opens)) = alike.filter(|(before, _)| *before == at) {
            let rubric = rubric_of_most(&plan, school.rubrics.len());
            school.mark_alike(rubric, opens, seed)?;
        }
        school.make(planned)?;
    }
    school.say_who_stops()?;
    school.note_what_happened(opens)?;
    Ok(school.ledger)
}

fn read(text: &str) -> Result<(RubricText, Rubric), DemoError> {
    let rubric = read_rubric(text).rubric.ok_or(DemoError::Unreadable)?;
    let kept = RubricText {
        digest: sha256_hex(text.as_bytes()),
        rubric_id: rubric.id.clone(),
        version: rubric.version.clone(),
        title: rubric.title.clone(),
        text: text.to_owned(),
    };
    Ok((kept, rubric))
}

impl School {
    fn perform(&mut self, command: Command) -> Result<Ids, DemoError> {
        self.clock += 4_000 + self.chance.below(9_000);
        self.carry_out(command)
    }

    /// Takes no chance, so that what is drawn later does not depend on it.
    fn carry_out(&mut self, command: Command) -> Result<Ids, DemoError> {
        let now = u64::try_from(self.clock).unwrap_or(0);
        let change = apply(&self.ledger, command, &Stamp::first(now, device()))?;
        self.ledger.make(&change);
        Ok(change.made)
    }

    fn now(&self) -> Moment {
        Moment::new(self.clock, 0)
    }

    fn enrol(&mut self) -> Result<(), DemoError> {
        let steps = self.rubrics.iter().flat_map(|(_, rubric)| &rubric.steps);
        let mut steps: Vec<String> = steps.map(|step| step.id.clone()).collect();
        steps.sort_unstable();
        steps.dedup();
        for (number, profile) in (1..).zip(&LEARNERS) {
            let made = self.perform(Command::AddLearner {
                name: profile.name.to_owned(),
                given_number: Some(format!("invented {number}")),
            })?;
            let Some(id) = made.learner else { continue };
            let first = self.now().day();
            self.set_details(id, |details| enrolled(number - 1, first, details))?;
            let learning = Learning::new(id, profile, &steps, self.chance.fork());
            self.learners.push(learning);
        }
        for marker in MARKERS {
            let name = marker.name.to_owned();
            self.perform(Command::AddExaminer { name })?;
        }
        Ok(())
    }

    fn set_details(
        &mut self,
        learner: LearnerId,
        change: impl FnOnce(&LearnerDetails) -> LearnerDetails,
    ) -> Result<(), DemoError> {
        let Some(known) = self.ledger.learner(learner) else {
            return Ok(());
        };
        let before = LearnerDetails::of(known);
        let after = change(&before);
        self.clock += 2_000;
        self.carry_out(Command::SetLearner {
            learner,
            before: Box::new(before),
            after: Box::new(after),
        })?;
        Ok(())
    }

    /// What waits since the forge was open last is handed over.
    fn hand_over(&mut self) -> Result<(), DemoError> {
        for (at, command) in handed_over(&self.ledger, self.clock) {
            self.clock = at;
            self.carry_out(command)?;
        }
        Ok(())
    }

    /// Writes down who left and who goes on later, once the months are over.
    fn say_who_stops(&mut self) -> Result<(), DemoError> {
        let ids: Vec<_> = self.learners.iter().map(|learning| learning.id).collect();
        for (number, id) in ids.into_iter().enumerate() {
            let status = status_at_end(number);
            self.set_details(id, |details| LearnerDetails {
                status,
                ..details.clone()
            })?;
        }
        Ok(())
    }

    /// Writes down what happened in the training; the school's first day began with `opens`.
    fn note_what_happened(&mut self, opens: i64) -> Result<(), DemoError> {
        for (number, days, text) in HAPPENED {
            let Some(learning) = self.learners.get(number) else {
                continue;
            };
            let learner = learning.id;
            self.clock += 2_000;
            self.carry_out(Command::AddMilestone {
                learner,
                day: Moment::new(opens + days * DAY_MS, 0).day(),
                text: text.to_owned(),
            })?;
        }
        Ok(())
    }

    /// Makes one piece and marks it as often as planned.
    fn make(&mut self, planned: &Planned) -> Result<(), DemoError> {
        if planned.opens > self.clock.saturating_add(HANDING_OVER) {
            self.hand_over()?;
        }
        self.clock = self.clock.saturating_add(120_000).max(planned.opens);
        let planned = &Planned {
            rubric: self.rubric_for(planned),
            ..*planned
        };
        let mut chance = self.chance.fork();
        let made = self.made(planned, &mut chance);
        let learner = self.learners.get(planned.learner);
        let own = Marker::own(learner.map_or("", |learner| learner.profile.name));
        let turn = planned.learner + usize::try_from(planned.piece).unwrap_or(0);
        let (first, second) = (Marker::whose_turn(turn), Marker::whose_turn(turn + 1));
        let sheet = |marker: Marker, role| Sheet {
            made: &made,
            unit: marker.unit(),
            marker,
            role,
        };
        let sheets = match planned.course {
            Course::Twice => vec![sheet(first, Role::First), sheet(second, Role::Second)],
            Course::OwnFirst => vec![sheet(own, Role::Own), sheet(first, Role::First)],
            Course::OwnOnly => vec![sheet(own, Role::Own)],
            _ => vec![sheet(first, Role::First)],
        };
        let mut ids = Ids::default();
        let mut came_to = None;
        for sheet in sheets {
            ids = self.begin(planned, &sheet, ids, self.maker(planned)?)?;
            let percent = self.fill(planned, &sheet, ids, &mut chance)?;
            if sheet.role == Role::First {
                came_to = percent;
            }
        }
        // Only now, because both examiners of a piece know the same last one.
        let learning = self.learners.get_mut(planned.learner);
        if let (Some(learning), Some(percent)) = (learning, came_to) {
            learning.last.insert(planned.rubric, percent);
        }
        Ok(())
    }

    /// The day on which all examiners mark the same pieces. It draws from a source of its
    /// own, so that all that comes later is what it would be without it.
    fn mark_alike(&mut self, rubric: usize, opens: i64, seed: u64) -> Result<(), DemoError> {
        if opens > self.clock.saturating_add(HANDING_OVER) {
            self.hand_over()?;
        }
        self.clock = opens;
        let mut chance = Chance::of(!seed);
        let kept = std::mem::replace(&mut self.chance, chance.fork());
        let made = SHARED.iter().enumerate().try_for_each(|(number, shared)| {
            self.mark_shared(rubric, number, shared, &mut chance.fork())
        });
        self.chance = kept;
        made
    }

    fn mark_shared(
        &mut self,
        rubric: usize,
        number: usize,
        shared: &Shared,
        chance: &mut Chance,
    ) -> Result<(), DemoError> {
        let planned = &Planned {
            // Nobody's: the pieces come from elsewhere and bear a ticket alone.
            learner: LEARNERS.len(),
            piece: 0,
            rubric,
            opens: self.clock,
            sitting: SittingKind::Practice,
            course: Course::Marked,
        };
        let (_, own) = self.rubrics.get(rubric).ok_or(DemoError::NoRubric)?;
        let made = Made::by(own, &|_| shared.skill, chance);
        let roles = [Role::First, Role::Second, Role::Third];
        let who = Who::Ticket {
            ticket: format!("S{}", number + 1),
            learner: None,
        };
        let mut ids = Ids::default();
        for (role, turn) in roles.into_iter().zip(shared.by) {
            let marker = Marker::whose_turn(*turn);
            let sheet = Sheet {
                made: &made,
                unit: marker.unit(),
                marker,
                role,
            };
            ids = self.begin(planned, &sheet, ids, who.clone())?;
            self.fill(planned, &sheet, ids, chance)?;
        }
        Ok(())
    }

    /// Some piece has to be stopped by a fault, so it needs a rubric that has one.
    fn rubric_for(&self, planned: &Planned) -> usize {
        let stops = |at: &usize| {
            let rubric = self.rubrics.get(*at);
            rubric.is_some_and(|(_, rubric)| stopping_fault(rubric).is_some())
        };
        if planned.course != Course::Stopped || stops(&planned.rubric) {
            return planned.rubric;
        }
        let mut all = 0..self.rubrics.len();
        all.find(stops).unwrap_or(planned.rubric)
    }

    fn made(&self, planned: &Planned, chance: &mut Chance) -> Made {
        let Some((_, rubric)) = self.rubrics.get(planned.rubric) else {
            return Made::default();
        };
        // A good day or a bad one.
        let day = chance.bell() * 25 / 1000;
        let learning = self.learners.get(planned.learner);
        let skill = |step: Option<&str>| {
            let level = learning.map_or(500, |learning| learning.skill(step, planned.piece));
            (level + day).clamp(60, 975)
        };
        let mut made = Made::by(rubric, &skill, chance);
        if planned.course == Course::Stopped {
            made.stop(rubric);
        }
        made
    }

    /// Whose a planned piece is.
    fn maker(&self, planned: &Planned) -> Result<Who, DemoError> {
        let learner = self.learners.get(planned.learner);
        let learner = learner.ok_or(DemoError::NoRubric)?.id;
        let by_ticket = matches!(planned.sitting, SittingKind::Mock | SittingKind::Exam);
        Ok(if by_ticket {
            Who::Ticket {
                ticket: format!("{:02}", planned.learner + 1),
                learner: Some(learner),
            }
        } else {
            Who::Learner(learner)
        })
    }

    /// Begins the first marking of a piece, or one more of that in `ids`.
    fn begin(
        &mut self,
        planned: &Planned,
        sheet: &Sheet<'_>,
        ids: Ids,
        who: Who,
    ) -> Result<Ids, DemoError> {
        if let Some(piece) = ids.piece {
            let what = MarkAgain {
                piece,
                examiner: sheet.examiner(planned),
                rubric: None,
                unit: sheet.unit,
                role: sheet.role,
                at: self.now(),
            };
            return self.perform(Command::MarkAgain(Box::new(what)));
        }
        let rubric = self.rubrics.get(planned.rubric);
        let (rubric, _) = rubric.ok_or(DemoError::NoRubric)?;
        let what = StartPiece {
            who,
            rubric: rubric.clone(),
            sitting: planned.sitting,
            day: self.now().day(),
            examiner: sheet.examiner(planned),
            unit: sheet.unit,
            role: sheet.role,
            own: None,
            at: self.now(),
            second: None,
        };
        self.perform(Command::StartPiece(Box::new(what)))
    }

    /// Enters one sheet and seals it, where it is not to stay a draft. Gives the per
    /// cent that the next piece is held against, where it was marked to the end.
    fn fill(
        &mut self,
        planned: &Planned,
        sheet: &Sheet<'_>,
        ids: Ids,
        chance: &mut Chance,
    ) -> Result<Option<Exact>, DemoError> {
        let (Some(piece), Some(marking)) = (ids.piece, ids.marking) else {
            return Ok(None);
        };
        let rubric = self.rubrics.get(planned.rubric);
        let (_, rubric) = rubric.ok_or(DemoError::NoRubric)?;
        let learning = self.learners.get(planned.learner);
        let look = Look {
            rubric,
            made: sheet.made,
            marker: &sheet.marker,
            unit: sheet.unit,
            last: learning.and_then(|learning| learning.last.get(&planned.rubric).copied()),
            habit: learning.map_or(0, |learning| learning.habit),
        };
        let skill = |step: Option<&str>| {
            learning.map_or(500, |learning| learning.skill(step, planned.piece))
        };
        let is_own = sheet.role == Role::Own;
        let watched = (!is_own).then(|| watched(rubric, planned, sheet.made, &skill));
        let seen = look.fill(chance);
        for edit in watched.into_iter().flatten() {
            self.carry_out(Command::edit(marking, edit))?;
        }
        let whole = planned.course != Course::Draft && planned.course != Course::Withdrawn;
        let share = if whole { 10 } else { 6 };
        let entered = seen.edits.len() * share / 10;
        for edit in seen.edits.into_iter().take(entered) {
            self.perform(Command::edit(marking, edit))?;
        }
        let said = match planned.course {
            Course::Withdrawn => Some(WITHDRAWN),
            Course::Stopped => Some(STOPPED),
            _ => None,
        };
        if let Some(said) = said {
            let edit = Edit::SetComment {
                entry: None,
                comment: Some(said.to_owned()),
            };
            self.perform(Command::edit(marking, edit))?;
        }
        if planned.course == Course::Draft {
            return Ok(None);
        }
        let ended = match planned.course {
            Course::Withdrawn => Ended::Withdrawn,
            Course::Stopped => Ended::StoppedForSafety,
            _ if sheet.made.ran_out => Ended::UnfinishedAtTime,
            _ => Ended::Finished,
        };
        if self
            .ledger
            .piece(piece)
            .is_some_and(|piece| piece.ended.is_none())
        {
            let ended = Some(ended);
            self.perform(Command::SetEnded { piece, ended })?;
        }
        self.seal(marking)?;
        Ok(Some(seen.percent).filter(|_| planned.course != Course::Withdrawn))
    }

    fn seal(&mut self, marking: MarkingId) -> Result<(), DemoError> {
        let mut seed = [0; 32];
        for part in seed.chunks_mut(8) {
            part.copy_from_slice(&self.chance.draw().to_be_bytes());
        }
        let at = self.now();
        self.perform(Command::Seal {
            marking,
            seed,
            at,
            signature: None,
        })?;
        Ok(())
    }
}

impl Sheet<'_> {
    fn examiner(&self, planned: &Planned) -> String {
        if self.role == Role::Own {
            format!("{} (invented {})", self.marker.name, planned.learner + 1)
        } else {
            self.marker.name.to_owned()
        }
    }
}
