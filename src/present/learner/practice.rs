use super::pieces;
use super::works::works_of;
use crate::present::dates::long_day;
use crate::present::learners::called;
use crate::present::scores::Rubrics;
use crate::progress::Made;
use crate::records::Span;
use crate::records::{LearnerId, Ledger, Moment, Whom};
use crate::sheet::{Document, PracticeShown, practice_card, practice_shown};

/// What a learner has to practise, to talk about and to take along.
#[derive(Debug, Clone, PartialEq)]
pub struct PracticePage {
    /// Name and number.
    pub name: String,
    /// The costliest first.
    pub practice: Vec<PracticeShown>,
    /// Day, rubric and award of the latest piece; empty where there is none.
    pub latest: String,
    /// What is to be practised as a card.
    pub card: Document,
}

/// What the learner `id` has to practise, from pieces whose marks they may see; `None` where
/// there is no such learner.
pub fn practice_page(
    ledger: &Ledger,
    rubrics: &Rubrics,
    id: LearnerId,
    now: Moment,
) -> Option<PracticePage> {
    let learner = ledger.learner(id)?;
    let made = pieces::made(
        ledger,
        rubrics,
        &works_of(ledger, id, Whom::Learner),
        Span::default(),
    );
    let practice = practice_shown(&made);
    let name = called(learner);
    Some(PracticePage {
        card: practice_card(&name, &long_day(now.day()), &practice),
        name,
        latest: made.last().map(latest_words).unwrap_or_default(),
        practice,
    })
}

fn latest_words(made: &Made<'_>) -> String {
    let outcome = &made.outcome;
    format!(
        "{}, {}: {} of {}, {}",
        made.day,
        made.rubric.title,
        outcome.marks,
        outcome.out_of,
        outcome.award.word()
    )
}
