//! The markings of several examiners: side by side, and the way to an agreed one.

use std::sync::Arc;

use super::makers::maker_name;
use super::scored::{NoSheet, rubric_of};
use super::scores::Rubrics;
use crate::output::sheet_base;
use crate::records::{Ledger, Marking, MarkingId, PieceId};
use crate::rubric::Rubric;
use crate::sheet::{Document, InOrder, Scored, examiners_document, marker};

/// The markings of two or three examiners side by side.
#[derive(Debug, Clone, PartialEq)]
pub struct ExaminersPage {
    /// The piece.
    pub piece: PieceId,
    /// The sheets, each with what it is called.
    pub sheets: Vec<(MarkingId, String)>,
    /// What the page says.
    pub document: Document,
    /// What a file of it is called, without an ending.
    pub file_base: String,
    /// What the way to the agreed marking is called.
    pub agree: &'static str,
}

/// What examiners have sealed of `piece`, side by side.
///
/// *Errors:* [`NoSheet`].
pub fn examiners_page(
    ledger: &Ledger,
    rubrics: &Rubrics,
    piece: PieceId,
) -> Result<ExaminersPage, NoSheet> {
    let found = ledger.piece(piece).ok_or(NoSheet::Lost)?;
    let whose = maker_name(ledger, found);
    let agree = agree_words(ledger, piece).unwrap_or("To the agreed marking");
    with_examiners(ledger, rubrics, piece, |scored| {
        let in_order = scored.iter();
        let in_order = in_order.map(|one| in_order_of(ledger, rubrics, one.parts.marking));
        let in_order: Vec<InOrder> = in_order.collect();
        let sheets = scored.iter();
        let sheets = sheets.map(|one| (one.parts.marking.id, marker(one)));
        let file_base = scored.first().map(sheet_base).unwrap_or_default();
        ExaminersPage {
            piece,
            sheets: sheets.collect(),
            document: examiners_document(&whose, scored, &in_order),
            file_base: format!("{file_base}_examiners"),
            agree,
        }
    })
}

/// What the examiner of `marking` has sealed in its sitting and all may see, in the order
/// of marking.
fn in_order_of(ledger: &Ledger, rubrics: &Rubrics, marking: &Marking) -> InOrder {
    let sitting = ledger.piece(marking.piece).map(|piece| piece.sitting);
    let is_in = |other: &&Marking| {
        let piece = ledger.piece(other.piece);
        other.examiner == marking.examiner
            && ledger.first_role(other).is_examiners()
            && piece.map(|piece| piece.sitting) == sitting
            && !ledger.standing(other.piece).is_apart()
    };
    let counting = |other: &&Marking| {
        let markings = ledger.examiners_markings(other.piece);
        markings.iter().any(|one| one.id == other.id)
    };
    let mut all: Vec<&Marking> = ledger.markings().filter(is_in).filter(counting).collect();
    all.sort_by_key(|other| (other.order, other.id));
    let percents = all.into_iter().map(|other| {
        let outcome = ledger.marked(other, &*rubric_of(ledger, rubrics, other)?);
        outcome.complete.then_some(outcome.percent)
    });
    InOrder {
        who: ledger.examiner_name(marking).to_owned(),
        percents: percents.collect(),
    }
}

/// Does something with what examiners have sealed of `piece`, the first examiner's first,
/// two or more.
///
/// *Errors:* [`NoSheet`].
pub(super) fn with_examiners<T>(
    ledger: &Ledger,
    rubrics: &Rubrics,
    piece: PieceId,
    see: impl FnOnce(&[Scored<'_>]) -> T,
) -> Result<T, NoSheet> {
    if ledger.piece(piece).is_none() {
        return Err(NoSheet::Lost);
    }
    if ledger.standing(piece).is_apart() {
        return Err(NoSheet::Unseen);
    }
    let markings = ledger.examiners_markings(piece);
    if markings.len() < 2 {
        return Err(NoSheet::Alone);
    }
    let with_rubric = markings.into_iter().map(|marking| {
        let rubric = rubric_of(ledger, rubrics, marking)?;
        Some((marking, rubric))
    });
    let both = with_rubric.collect::<Option<Vec<(&Marking, Arc<Rubric>)>>>();
    let both = both.ok_or(NoSheet::NoRubric)?;
    let scored = both
        .iter()
        .map(|(marking, rubric)| Scored::in_ledger(ledger, marking, rubric));
    let scored = scored.collect::<Option<Vec<Scored<'_>>>>();
    Ok(see(&scored.ok_or(NoSheet::Lost)?))
}

/// What the way to the agreed marking of `piece` is called; `None` where fewer than two
/// examiners have sealed one, or it may not be seen yet.
pub(super) fn agree_words(ledger: &Ledger, piece: PieceId) -> Option<&'static str> {
    let standing = ledger.standing(piece);
    if standing.is_apart() || ledger.examiners_markings(piece).len() < 2 {
        return None;
    }
    let mut drafts = standing.drafts().iter();
    let mut sealed = standing.sealed().iter();
    Some(if drafts.any(|draft| draft.agreement.is_some()) {
        "Go on agreeing"
    } else if sealed.any(|marking| marking.agreement.is_some()) {
        "To the agreed marking"
    } else {
        "Agree on one marking"
    })
}
