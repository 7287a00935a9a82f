//! Learners: adding them, and what is known of them.

use super::apply::{missing, put, same_name, tidy};
use super::{Change, CommandError, Made};
use crate::records::{Day, Kind, Learner, LearnerId, LearnerStatus, Ledger, OutsideNumber, Stamp};

/// All that a person says of a learner.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct LearnerDetails {
    /// As written on sheets.
    pub name: String,
    /// A number that tells people of one name apart.
    pub given_number: Option<String>,
    /// Numbers that other places gave.
    pub outside_numbers: Vec<OutsideNumber>,
    /// Who employs the learner.
    pub employer: Option<String>,
    /// When the training began.
    pub started: Option<Day>,
    /// When it is to end.
    pub planned_end: Option<Day>,
    /// How far the learner is.
    pub status: LearnerStatus,
}

impl LearnerDetails {
    /// What is said of `learner`.
    pub fn of(learner: &Learner) -> Self {
        Self {
            name: learner.name.clone(),
            given_number: learner.given_number.clone(),
            outside_numbers: learner.outside_numbers.clone(),
            employer: learner.employer.clone(),
            started: learner.started,
            planned_end: learner.planned_end,
            status: learner.status,
        }
    }

    /// Without needless spaces, empty texts and numbers that say nothing.
    fn tidy(self) -> Self {
        let outside_numbers = self.outside_numbers.into_iter().map(|one| OutsideNumber {
            by: spaced(&one.by),
            number: spaced(&one.number),
        });
        Self {
            name: spaced(&self.name),
            given_number: tidy_text(self.given_number),
            outside_numbers: outside_numbers
                .filter(|one| !one.number.is_empty())
                .collect(),
            employer: tidy_text(self.employer),
            ..self
        }
    }
}

pub(super) fn add(
    ledger: &Ledger,
    name: &str,
    given_number: Option<String>,
    stamp: &Stamp,
) -> Result<Change, CommandError> {
    let id = LearnerId::made_by(stamp, 0);
    let mut change = Change {
        made: Made {
            learner: Some(id),
            ..Made::default()
        },
        ..Change::default()
    };
    if ledger.learner(id).is_none() {
        let name = tidy(name, "the learner")?;
        let mut learner = Learner::named(id, stamp.clone(), name);
        learner.given_number = tidy_text(given_number);
        refuse_double(ledger, &learner)?;
        change.puts.push(learner.into());
    }
    Ok(change)
}

/// Three-way: what does not differ between `before` and `after` stays as it is now,
/// another tab may have written it since.
pub(super) fn set(
    ledger: &Ledger,
    id: LearnerId,
    before: LearnerDetails,
    after: LearnerDetails,
    stamp: &Stamp,
) -> Result<Change, CommandError> {
    let old = ledger
        .learner(id)
        .ok_or_else(|| missing(Kind::Learner, id))?;
    if old.erased.is_some() {
        return Err(CommandError::NameErased);
    }
    let (before, after) = (before.tidy(), after.tidy());
    let mut new = old.clone();
    write(&mut new.name, &before.name, after.name);
    write(
        &mut new.given_number,
        &before.given_number,
        after.given_number,
    );
    write(
        &mut new.outside_numbers,
        &before.outside_numbers,
        after.outside_numbers,
    );
    write(&mut new.employer, &before.employer, after.employer);
    write(&mut new.started, &before.started, after.started);
    write(&mut new.planned_end, &before.planned_end, after.planned_end);
    write(&mut new.status, &before.status, after.status);
    if new == *old {
        return Ok(Change::default());
    }
    // What a file brought may be wrong; that hinders no change of something else.
    if (&new.name, &new.given_number) != (&old.name, &old.given_number) {
        new.name = tidy(&new.name, "the learner")?;
        refuse_double(ledger, &new)?;
    }
    if (new.started, new.planned_end) != (old.started, old.planned_end) {
        refuse_order(new.started, new.planned_end)?;
    }
    new.stamp = stamp.after(&old.stamp);
    Ok(put(new))
}

/// Writes what differs between `before` and `after`.
pub(super) fn write<T: PartialEq>(now: &mut T, before: &T, after: T) {
    if *before != after {
        *now = after;
    }
}

/// `text` without needless spaces.
pub(super) fn spaced(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// The same; nothing where nothing is left.
pub(super) fn tidy_text(text: Option<String>) -> Option<String> {
    text.map(|text| spaced(&text))
        .filter(|text| !text.is_empty())
}

fn refuse_double(ledger: &Ledger, new: &Learner) -> Result<(), CommandError> {
    let double = ledger.learners().any(|learner| {
        learner.id != new.id
            && learner.erased.is_none()
            && same_name(&learner.name, &new.name)
            && learner.given_number == new.given_number
    });
    if double {
        return Err(CommandError::NameTaken {
            name: new.name.clone(),
        });
    }
    Ok(())
}

fn refuse_order(started: Option<Day>, planned_end: Option<Day>) -> Result<(), CommandError> {
    match (started, planned_end) {
        (Some(started), Some(planned_end)) if planned_end < started => {
            Err(CommandError::EndBeforeStart {
                started,
                planned_end,
            })
        }
        _ => Ok(()),
    }
}
