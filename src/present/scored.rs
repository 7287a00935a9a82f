use std::sync::Arc;

use super::makers::maker_name;
use super::scores::Rubrics;
use crate::output::{csv, file_base, json};
use crate::records::{LearnerId, Ledger, Marking, MarkingId, Piece, PieceId, Role, SealParts};
use crate::rubric::Rubric;
use crate::sheet::{Document, Scored, beside, marking_rows, scored_sheet};

/// A piece's sheet as its page shows it.
#[derive(Debug, Clone, PartialEq)]
pub struct SheetPage {
    /// The piece.
    pub piece: PieceId,
    /// The marking that the sheet is of.
    pub marking: MarkingId,
    /// What the sheet says.
    pub document: Document,
    /// What files of it are called, without an ending.
    pub file_base: String,
    /// Whether the marking is sealed.
    pub sealed: bool,
    /// The learner and what they are called, where the sheet names them.
    pub learner: Option<(LearnerId, String)>,
    /// Where the maker's own marking stands beside the one that counts: the sheet of
    /// the other of the two, and what it is called.
    pub other: Option<(MarkingId, &'static str)>,
    /// What the way to mark the piece once more is called, where there is one.
    pub again: Option<&'static str>,
}

/// The maker's own marking beside the one that counts.
#[derive(Debug, Clone, PartialEq)]
pub struct SidePage {
    /// The piece.
    pub piece: PieceId,
    /// The maker's own marking.
    pub own: MarkingId,
    /// The one that the piece stands for.
    pub counting: MarkingId,
    /// What the page says.
    pub document: Document,
    /// What a file of it is called, without an ending.
    pub file_base: String,
}

/// Why there is no sheet to show.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NoSheet {
    /// There is no such piece here, or nothing about it.
    Lost,
    /// Its rubric is not here or cannot be read.
    NoRubric,
    /// It is marked unseen by several, and not all of it is sealed.
    Unseen,
    /// Only one of maker and examiner has sealed a marking of it.
    Alone,
}

/// The sheet of `piece`: of the marking `wanted`, or else of the one that it stands for
/// or of its only draft.
///
/// *Errors:* [`NoSheet`].
pub fn sheet_page(
    ledger: &Ledger,
    rubrics: &Rubrics,
    piece: PieceId,
    wanted: Option<MarkingId>,
) -> Result<SheetPage, NoSheet> {
    let marking = shown_marking(ledger, piece, wanted)?;
    let piece = ledger.piece(piece).ok_or(NoSheet::Lost)?;
    let standing = ledger.standing(piece.id);
    let other = standing.own_and_counting().and_then(|(own, counting)| {
        if marking.id == own.id {
            Some((counting.id, "The examiner’s sheet"))
        } else {
            (marking.id == counting.id).then_some((own.id, "The maker’s own sheet"))
        }
    });
    with_scored(ledger, rubrics, marking, |scored| SheetPage {
        piece: piece.id,
        marking: marking.id,
        document: scored_sheet(scored),
        file_base: base(scored),
        sealed: marking.seal.is_some(),
        learner: piece
            .learner
            .zip(scored.learner().map(str::to_owned))
            .filter(|(id, _)| ledger.learner(*id).is_some()),
        other,
        again: again_words(ledger, piece),
    })
    .ok_or(NoSheet::NoRubric)
}

/// The marking of `piece` that a page of it is about, where it may be seen.
///
/// *Errors:* [`NoSheet`].
pub(super) fn shown_marking(
    ledger: &Ledger,
    piece: PieceId,
    wanted: Option<MarkingId>,
) -> Result<&Marking, NoSheet> {
    let piece = ledger.piece(piece).ok_or(NoSheet::Lost)?;
    let standing = ledger.standing(piece.id);
    let marking = match wanted {
        None if standing.is_apart() => return Err(NoSheet::Unseen),
        None => sheet_marking(ledger, piece),
        Some(wanted) => ledger
            .marking(wanted)
            .filter(|marking| marking.piece == piece.id),
    };
    let marking = marking.ok_or(NoSheet::Lost)?;
    if may_be_seen(ledger, marking) {
        Ok(marking)
    } else {
        Err(NoSheet::Unseen)
    }
}

/// The way to one more marking, on a sheet of which all may be seen.
fn again_words(ledger: &Ledger, piece: &Piece) -> Option<&'static str> {
    if ledger.standing(piece.id).is_apart() {
        return None;
    }
    let is_own = |role: &Role| *role == Role::Own;
    let roles = ledger.markings_of(piece.id).map(|marking| marking.role);
    let roles: Vec<Role> = roles.collect();
    match (roles.iter().any(is_own), roles.iter().all(is_own)) {
        (false, _) => Some("Mark it yourself"),
        (true, true) => Some("Mark as examiner"),
        (true, false) => None,
    }
}

/// The maker's own marking of `piece` beside the one that counts.
///
/// *Errors:* [`NoSheet`].
pub fn side_page(ledger: &Ledger, rubrics: &Rubrics, piece: PieceId) -> Result<SidePage, NoSheet> {
    let piece = ledger.piece(piece).ok_or(NoSheet::Lost)?;
    let standing = ledger.standing(piece.id);
    if standing.is_apart() {
        return Err(NoSheet::Unseen);
    }
    let (own, counting) = standing.own_and_counting().ok_or(NoSheet::Alone)?;
    let whose = maker_name(ledger, piece);
    let both = parts_of(ledger, rubrics, own).zip(parts_of(ledger, rubrics, counting));
    let ((mine, by_mine), (theirs, by_theirs)) = both.ok_or(NoSheet::NoRubric)?;
    let counted = Scored::of(theirs, &by_theirs);
    Ok(SidePage {
        piece: piece.id,
        own: own.id,
        counting: counting.id,
        document: beside(&whose, &Scored::of(mine, &by_mine), &counted),
        file_base: format!("{}_side-by-side", base(&counted)),
    })
}

/// Whether pages and files may show what `marking` gives: a draft to whoever asks for it
/// by its address, a sealed one not before every blind marking of the piece is sealed.
fn may_be_seen(ledger: &Ledger, marking: &Marking) -> bool {
    marking.seal.is_none() || !ledger.standing(marking.piece).is_unseen()
}

/// The marking as CSV.
///
/// *Errors:* in words, for people.
pub fn sheet_csv(ledger: &Ledger, rubrics: &Rubrics, marking: MarkingId) -> Result<String, String> {
    let marking = to_hand_over(ledger, marking)?;
    let written = with_scored(ledger, rubrics, marking, |scored| {
        csv::write(&marking_rows(scored))
    });
    written.ok_or_else(gone)?.map_err(|error| error.to_string())
}

/// The sealed marking as JSON that anyone can verify.
///
/// *Errors:* in words, for people.
pub fn sheet_json(ledger: &Ledger, marking: MarkingId) -> Result<String, String> {
    let marking = to_hand_over(ledger, marking)?;
    let parts = ledger.seal_parts(marking).ok_or_else(gone)?;
    json::write(parts).map_err(|error| error.to_string())
}

/// Does something with a marking and what it comes to; `None` where a record or a
/// rubric that can be read is missing.
pub(super) fn with_scored<T>(
    ledger: &Ledger,
    rubrics: &Rubrics,
    marking: &Marking,
    see: impl FnOnce(&Scored<'_>) -> T,
) -> Option<T> {
    let (parts, rubric) = parts_of(ledger, rubrics, marking)?;
    Some(see(&Scored::of(parts, &rubric)))
}

pub(super) fn parts_of<'a>(
    ledger: &'a Ledger,
    rubrics: &Rubrics,
    marking: &'a Marking,
) -> Option<(SealParts<'a>, Arc<Rubric>)> {
    let parts = ledger.seal_parts(marking)?;
    Some((parts, rubrics.get(parts.rubric)?))
}

/// The marking that a piece stands for, or its latest draft; none while it is marked
/// unseen by several.
pub(super) fn sheet_marking<'a>(ledger: &'a Ledger, piece: &Piece) -> Option<&'a Marking> {
    let standing = ledger.standing(piece.id);
    if standing.is_apart() {
        return None;
    }
    let draft = standing.drafts().last().copied();
    standing.counts().or(draft)
}

pub(super) fn base(scored: &Scored<'_>) -> String {
    let parts = &scored.parts;
    let ticket = parts
        .piece
        .ticket
        .as_ref()
        .map(|ticket| format!("ticket {ticket}"));
    let whose = scored.learner().map(str::to_owned).or(ticket);
    let base = file_base(
        parts.sitting.day,
        whose.as_deref().unwrap_or("piece"),
        &parts.rubric.rubric_id,
    );
    // Files of both markings of a piece may lie in one folder.
    if scored.is_own() {
        format!("{base}_own")
    } else {
        base
    }
}

fn to_hand_over(ledger: &Ledger, marking: MarkingId) -> Result<&Marking, String> {
    let marking = ledger.marking(marking).ok_or_else(gone)?;
    if may_be_seen(ledger, marking) {
        Ok(marking)
    } else {
        Err("This marking stays unseen until the other one of the piece is sealed.".to_owned())
    }
}

fn gone() -> String {
    "This marking, or its rubric, is no longer in this ledger; reload the page.".to_owned()
}
