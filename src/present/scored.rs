use super::scores::Rubrics;
use crate::output::{csv, file_base, json};
use crate::records::{LearnerId, Ledger, Marking, MarkingId, Piece, PieceId};
use crate::rubric::Rubric;
use crate::sheet::{Document, Scored, marking_rows, scored_sheet};

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
}

/// Why there is no sheet to show.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NoSheet {
    /// There is no such piece here, or nothing about it.
    Lost,
    /// Its rubric is not here or cannot be read.
    NoRubric,
}

/// The sheet of `piece`: of the marking that it stands for, or of its latest draft.
///
/// *Errors:* [`NoSheet`].
pub fn sheet_page(
    ledger: &Ledger,
    rubrics: &Rubrics,
    piece: PieceId,
) -> Result<SheetPage, NoSheet> {
    let piece = ledger.piece(piece).ok_or(NoSheet::Lost)?;
    let marking = sheet_marking(ledger, piece).ok_or(NoSheet::Lost)?;
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
    })
    .ok_or(NoSheet::NoRubric)
}

/// The marking as CSV.
///
/// *Errors:* in words, for people.
pub fn sheet_csv(ledger: &Ledger, rubrics: &Rubrics, marking: MarkingId) -> Result<String, String> {
    let marking = ledger.marking(marking).ok_or_else(gone)?;
    let written = with_scored(ledger, rubrics, marking, |scored| {
        csv::write(&marking_rows(scored))
    });
    written.ok_or_else(gone)?.map_err(|error| error.to_string())
}

/// The sealed marking as JSON that anyone can verify.
///
/// *Errors:* in words, for people.
pub fn sheet_json(ledger: &Ledger, marking: MarkingId) -> Result<String, String> {
    let marking = ledger.marking(marking).ok_or_else(gone)?;
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
    let parts = ledger.seal_parts(marking)?;
    let rubric: &Rubric = &*rubrics.get(parts.rubric)?;
    Some(see(&Scored::of(parts, rubric)))
}

/// The marking that a piece stands for, or its latest draft.
pub(super) fn sheet_marking<'a>(ledger: &'a Ledger, piece: &Piece) -> Option<&'a Marking> {
    let standing = ledger.standing(piece.id);
    let draft = standing.drafts().last().copied();
    standing.counts().or(draft)
}

fn base(scored: &Scored<'_>) -> String {
    let parts = &scored.parts;
    let ticket = parts
        .piece
        .ticket
        .as_ref()
        .map(|ticket| format!("ticket {ticket}"));
    let whose = scored.learner().map(str::to_owned).or(ticket);
    file_base(
        parts.sitting.day,
        whose.as_deref().unwrap_or("piece"),
        &parts.rubric.rubric_id,
    )
}

fn gone() -> String {
    "This marking, or its rubric, is no longer in this ledger; reload the page.".to_owned()
}
