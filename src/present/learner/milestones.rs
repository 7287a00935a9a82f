use super::super::start::sentence;
use crate::command::{Command, CommandError, MilestoneDetails};
use crate::records::{Day, LearnerId, Ledger, Milestone, MilestoneId, Span};
use crate::sheet::MilestoneShown;

/// How many the page shows at most, and a record on one page of paper.
const MOST: usize = 200;
const MOST_ON_PAPER: usize = 6;

/// Who reads a milestone, said where it is written.
pub const WHO_READS: &str = "Something that happened in the training, such as a new yard, time \
    off or a first. The learner reads it, on this page and on the record.";

/// A learner's milestones.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct MilestonesShown {
    /// The latest in these days, oldest first, with the numbers of their flags.
    pub rows: Vec<MilestoneRow>,
    /// How many earlier ones are not shown, in words; empty where all are.
    pub left_out: String,
}

/// One of them.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct MilestoneRow {
    /// Its id.
    pub id: MilestoneId,
    /// What it says, under the number of its flag.
    pub shown: MilestoneShown,
}

/// The form for a milestone, as typed.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct MilestoneForm {
    /// The day as date fields hold it.
    pub day: String,
    /// What it was.
    pub text: String,
}

/// What is wrong with it, by field.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct MilestoneErrors {
    /// About the day.
    pub day: Option<String>,
    /// About the text, or something else.
    pub text: Option<String>,
}

impl MilestoneForm {
    /// The form as it opens for what is known.
    pub fn of(details: &MilestoneDetails) -> Self {
        Self {
            day: details.day.iso(),
            text: details.text.clone(),
        }
    }

    /// What the form says.
    ///
    /// *Errors:* what is wrong with the day; a text is judged by the command.
    pub fn read(&self) -> Result<MilestoneDetails, MilestoneErrors> {
        let wrong = |text: String| MilestoneErrors {
            day: Some(text),
            text: None,
        };
        if self.day.trim().is_empty() {
            return Err(wrong("Give the day.".to_owned()));
        }
        let day = self.day.parse::<Day>();
        Ok(MilestoneDetails {
            day: day.map_err(|error| wrong(sentence(&error.to_string())))?,
            text: self.text.clone(),
            taken_back: false,
        })
    }
}

impl MilestoneErrors {
    /// What a refused command says.
    pub fn refused(error: &CommandError) -> Self {
        Self {
            day: None,
            text: Some(sentence(&error.to_string())),
        }
    }
}

/// What takes a step back that led from `before` to `after`, field by field; what was added
/// is taken back.
pub fn undo_milestone(
    milestone: MilestoneId,
    before: Option<&MilestoneDetails>,
    after: MilestoneDetails,
) -> Command {
    let wanted = before.cloned().unwrap_or_else(|| MilestoneDetails {
        taken_back: true,
        ..after.clone()
    });
    Command::SetMilestone {
        milestone,
        before: Box::new(after),
        after: Box::new(wanted),
    }
}

/// Those of a learner in these days that are shown, oldest first.
fn in_span(ledger: &Ledger, id: LearnerId, span: Span) -> Vec<&Milestone> {
    let is_named = ledger
        .learner(id)
        .is_some_and(|learner| learner.erased.is_none());
    let all = ledger.milestones_of(id).filter(|_| is_named);
    let mut all: Vec<&Milestone> = all
        .filter(|milestone| milestone.is_shown() && span.holds(milestone.day))
        .collect();
    all.sort_by_key(|milestone| (milestone.day, milestone.id));
    all
}

/// The latest of them, numbered.
fn latest(mut all: Vec<&Milestone>, most: usize) -> impl Iterator<Item = MilestoneRow> {
    let latest = all.split_off(all.len().saturating_sub(most));
    (1..).zip(latest).map(|(number, one)| MilestoneRow {
        id: one.id,
        shown: MilestoneShown {
            number,
            day: one.day,
            text: one.text.clone(),
        },
    })
}

/// The milestones that the page shows.
pub(super) fn milestones_shown(ledger: &Ledger, id: LearnerId, span: Span) -> MilestonesShown {
    let all = in_span(ledger, id, span);
    let left_out = match all.len().saturating_sub(MOST) {
        0 => String::new(),
        1 => "The earliest one is not shown.".to_owned(),
        count => format!("The earliest {count} are not shown."),
    };
    MilestonesShown {
        rows: latest(all, MOST).collect(),
        left_out,
    }
}

/// The latest, for one page of paper, and how many earlier ones there are.
pub(super) fn on_paper(ledger: &Ledger, id: LearnerId, span: Span) -> (Vec<MilestoneShown>, usize) {
    let all = in_span(ledger, id, span);
    let left_out = all.len().saturating_sub(MOST_ON_PAPER);
    let shown = latest(all, MOST_ON_PAPER).map(|row| row.shown);
    (shown.collect(), left_out)
}
