use super::works::Works;
use crate::present::scores::Rubrics;
use crate::progress::{Made, Pair};
use crate::records::Span;
use crate::records::{Ledger, Marking, Piece};

/// A learner's pieces that were made in these days as their record counts them, oldest first.
/// Pieces whose rubric or sitting is not here are left out.
pub(super) fn made<'a>(
    ledger: &'a Ledger,
    rubrics: &Rubrics,
    works: &Works<'a>,
    span: Span,
) -> Vec<Made<'a>> {
    works
        .made_in(span)
        .filter_map(|work| one(ledger, rubrics, work.piece, work.marking?))
        .collect()
}

/// Those of the pieces that their maker marked too, oldest first.
pub(super) fn pairs<'a>(
    ledger: &'a Ledger,
    rubrics: &Rubrics,
    works: &Works<'a>,
    span: Span,
) -> Vec<Pair<'a>> {
    let pairs = works.made_in(span).filter_map(|work| {
        work.marking?;
        let standing = ledger.standing(work.piece.id);
        let (own, counts) = standing.own_and_counting()?;
        Some(Pair {
            own: one(ledger, rubrics, work.piece, own)?,
            counts: one(ledger, rubrics, work.piece, counts)?,
        })
    });
    pairs.collect()
}

/// One of them.
pub(super) fn one<'a>(
    ledger: &'a Ledger,
    rubrics: &Rubrics,
    piece: &Piece,
    marking: &'a Marking,
) -> Option<Made<'a>> {
    let rubric = rubrics.get(ledger.rubric(&marking.rubric)?)?;
    Made::of(ledger, piece, marking, rubric)
}
