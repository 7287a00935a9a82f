use super::outlined::{Outlined, shoe_of};
use crate::present::makers::{name_known, piece_words};
use crate::present::scores::Rubrics;
use crate::records::{LearnerId, Ledger, Marking, MarkingId, Whom};

/// An outline that a sealed marking keeps.
#[derive(Debug, Clone, PartialEq)]
pub struct Kept {
    /// What tells it from the others: its marking and the shoe.
    pub key: String,
    /// Its marking.
    pub marking: MarkingId,
    /// Which shoe, where the piece has several.
    pub shoe: Option<String>,
    /// The outline, named by its piece and day.
    pub outlined: Outlined,
}

/// The outlines that markings of a learner's pieces keep, newest first: of those alone that are
/// sealed and may be seen by the learner, and not of pieces whose maker is not told yet. Of a piece
/// that was marked several times, each has its own.
pub(super) fn kept_outlines(ledger: &Ledger, rubrics: &Rubrics, learner: LearnerId) -> Vec<Kept> {
    let mut markings: Vec<&Marking> = seen_markings(ledger, learner).collect();
    markings.sort_by_key(|marking| std::cmp::Reverse(marking.id));
    let kept = markings
        .into_iter()
        .flat_map(|marking| own_outlines(ledger, rubrics, marking));
    kept.collect()
}

/// Markings of a learner's pieces whose outlines may be seen.
fn seen_markings(ledger: &Ledger, learner: LearnerId) -> impl Iterator<Item = &Marking> {
    let pieces = ledger.pieces_of(learner);
    let pieces = pieces.filter(|piece| name_known(ledger, piece));
    pieces.flat_map(|piece| {
        let standing = ledger.standing_for(piece.id, Whom::Learner);
        standing.sealed().to_vec()
    })
}

/// Whether a learner's page leads to [`two_pieces`](super::two_pieces): an outline is kept that
/// may be seen.
pub fn has_outlines(ledger: &Ledger, learner: LearnerId) -> bool {
    let mut markings = seen_markings(ledger, learner);
    markings.any(|marking| !marking.facts.outlines.is_empty())
}

/// The outlines that one marking keeps.
fn own_outlines(ledger: &Ledger, rubrics: &Rubrics, marking: &Marking) -> Vec<Kept> {
    let rubric = ledger.rubric(&marking.rubric);
    let rubric = rubric.and_then(|rubric| rubrics.get(rubric));
    let name = ledger.piece(marking.piece);
    let name = name.map(|piece| piece_words(ledger, piece));
    let outlines = marking.facts.outlines.iter();
    let kept = outlines.map(|fact| {
        let shoe = rubric.as_deref();
        let shoe = shoe.and_then(|rubric| shoe_of(rubric, fact.shoe.as_deref()));
        let part = shoe.filter(|_| fact.shoe.is_some());
        let name = [name.clone(), part.map(|shoe| shoe.name.clone())];
        let name: Vec<String> = name.into_iter().flatten().collect();
        let foot = shoe.and_then(|shoe| shoe.foot);
        Kept {
            key: format!(
                "{}/{}",
                marking.id,
                fact.shoe.as_deref().unwrap_or_default()
            ),
            marking: marking.id,
            shoe: fact.shoe.clone(),
            outlined: Outlined::kept(name.join(", "), fact, foot),
        }
    });
    kept.collect()
}

/// The outlines that a shoe of this marking may be laid over: those of the same learner's other
/// markings, newest first. None while the maker is not to be known.
pub(super) fn earlier_outlines(
    ledger: &Ledger,
    rubrics: &Rubrics,
    marking: MarkingId,
) -> Vec<Kept> {
    let piece = ledger.marking(marking);
    let piece = piece.and_then(|marking| ledger.piece(marking.piece));
    let piece = piece.filter(|piece| name_known(ledger, piece));
    let learner = piece.and_then(|piece| piece.learner);
    let kept = learner.map(|learner| kept_outlines(ledger, rubrics, learner));
    let mut kept = kept.unwrap_or_default();
    kept.retain(|one| one.marking != marking);
    kept
}
