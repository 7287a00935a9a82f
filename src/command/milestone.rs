//! Milestones: adding them, writing them anew, taking them back.

use super::apply::{missing, put};
use super::learner::{spaced, write};
use super::{Change, CommandError, Made};
use crate::records::{
    Day, Kind, LearnerId, Ledger, Milestone, MilestoneId, Moment, Record, RecordKey, Stamp,
};

/// All that a person says of a milestone.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct MilestoneDetails {
    /// When it was.
    pub day: Day,
    /// What it was, in one line of at most [`Milestone::MOST_CHARS`] characters.
    pub text: String,
    /// Whether it is taken back.
    pub taken_back: bool,
}

impl MilestoneDetails {
    /// What is said of `milestone`.
    pub fn of(milestone: &Milestone) -> Self {
        Self {
            day: milestone.day,
            text: milestone.text.clone(),
            taken_back: milestone.taken_back,
        }
    }
}

pub(super) fn add(
    ledger: &Ledger,
    learner: LearnerId,
    day: Day,
    text: &str,
    stamp: &Stamp,
) -> Result<Change, CommandError> {
    let id = MilestoneId::made_by(stamp, 11);
    let made = Made {
        milestone: Some(id),
        ..Made::default()
    };
    let change = match ledger.milestone(id) {
        Some(_) => Change::default(),
        None => Change {
            relies_on: vec![named(ledger, learner)?],
            ..put(Milestone {
                id,
                stamp: stamp.clone(),
                learner,
                day,
                text: tidy(text)?,
                taken_back: false,
                erased: None,
            })
        },
    };
    Ok(Change { made, ..change })
}

/// Three-way: what does not differ between `before` and `after` stays as it is now,
/// another tab may have written it since.
pub(super) fn set(
    ledger: &Ledger,
    id: MilestoneId,
    before: &MilestoneDetails,
    after: MilestoneDetails,
    stamp: &Stamp,
) -> Result<Change, CommandError> {
    let old = ledger
        .milestone(id)
        .ok_or_else(|| missing(Kind::Milestone, id))?;
    let learner = named(ledger, old.learner)?;
    let mut new = old.clone();
    write(&mut new.day, &before.day, after.day);
    write(&mut new.text, &spaced(&before.text), spaced(&after.text));
    write(&mut new.taken_back, &before.taken_back, after.taken_back);
    if new == *old {
        return Ok(Change::default());
    }
    // What a file brought may be too long; that hinders nobody from taking it back.
    if new.text != old.text {
        new.text = tidy(&new.text)?;
    }
    new.stamp = stamp.after(&old.stamp);
    Ok(Change {
        relies_on: vec![learner],
        ..put(new)
    })
}

/// Those of a learner without their texts, taken back ones too.
pub(super) fn erased<'a>(
    ledger: &'a Ledger,
    learner: LearnerId,
    at: Moment,
    stamp: &'a Stamp,
) -> impl Iterator<Item = Record> + 'a {
    let all = ledger.milestones_of(learner);
    let told = all.filter(|milestone| milestone.erased.is_none());
    told.map(move |old| {
        let stamp = stamp.after(&old.stamp);
        let new = old.wordless(at);
        Record::from(Milestone { stamp, ..new })
    })
}

/// The key of the learner `id`, whose name must not be erased: it must not be meanwhile.
fn named(ledger: &Ledger, id: LearnerId) -> Result<RecordKey, CommandError> {
    let learner = ledger.learner(id);
    let learner = learner.ok_or_else(|| missing(Kind::Learner, id))?;
    match learner.erased {
        None => Ok(RecordKey::new(Kind::Learner, id)),
        Some(_) => Err(CommandError::NameErased),
    }
}

fn tidy(text: &str) -> Result<String, CommandError> {
    let text = spaced(text);
    match text.chars().count() {
        0 => Err(CommandError::MilestoneEmpty),
        chars if chars > Milestone::MOST_CHARS => Err(CommandError::MilestoneTooLong { chars }),
        _ => Ok(text),
    }
}
