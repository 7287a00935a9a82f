//! One learner: what they made, how it was marked, how it goes.

mod charts;
mod details;
mod works;

use super::learners::called;
use super::pieces::{Called, PieceRow, draft_row, sealed_row};
use super::scores::Rubrics;
use crate::records::{LearnerId, Ledger, Moment};
pub use charts::Chart;
use charts::charts;
pub use details::{DetailsErrors, DetailsForm, OutsideRow, details_words, status_words};
pub(super) use works::works_of;

/// A learner's page.
#[derive(Debug, Clone, PartialEq)]
pub struct LearnerPage {
    /// Name and number, as the page is called.
    pub title: String,
    /// How many pieces.
    pub about: String,
    /// Marks over time, one chart for each rubric with a marked piece.
    pub charts: Vec<Chart>,
    /// Pieces on the bench, then sealed ones, newest first.
    pub pieces: Vec<PieceRow>,
}

/// The page of one learner; `None` where there is no such learner.
pub fn learner_page(
    ledger: &Ledger,
    rubrics: &Rubrics,
    id: LearnerId,
    now: Moment,
) -> Option<LearnerPage> {
    let learner = ledger.learner(id)?;
    let works = works_of(ledger, id);
    let drafts = works
        .drafts
        .iter()
        .map(|draft| draft_row(ledger, rubrics, *draft, Called::ByRubric, now));
    let sealed = works
        .sealed
        .iter()
        .map(|work| rubrics.score(ledger, work.marking));
    let scores: Vec<_> = sealed.collect();
    let sealed =
        works.sealed.iter().zip(&scores).map(|(work, score)| {
            sealed_row(ledger, work.piece, score.clone(), Called::ByRubric, now)
        });
    Some(LearnerPage {
        title: called(learner),
        about: works.counted(),
        pieces: drafts.chain(sealed).collect(),
        charts: charts(ledger, &works.sealed, &scores),
    })
}
