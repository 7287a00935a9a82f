use std::sync::Arc;

use super::again::{again_words, further_roles};
use super::correct::AfterSeal;
use super::examiners::agree_words;
use super::handing::Feedback;
use super::makers::maker_name;
use super::scores::Rubrics;
use crate::output::{json, sheet_base};
use crate::records::{LearnerId, Ledger, Marking, MarkingId, Piece, PieceId, SittingId, Whom};
use crate::rubric::Rubric;
use crate::sheet::{Document, Scored, beside, scored_sheet};

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
    /// The ways to mark the piece once more: as whom, as an address says it, and what each
    /// is called.
    pub again: Vec<(&'static str, &'static str)>,
    /// What the way to the agreed marking is called, where two examiners or more have sealed
    /// one, so that they stand side by side.
    pub agree: Option<&'static str>,
    /// Whether it is the agreed marking: how sure that is lies in those that it is made
    /// from.
    pub is_agreed: bool,
    /// What can be done now that it is sealed.
    pub after_seal: AfterSeal,
    /// Whether the learner was told what to make of it.
    pub feedback: Feedback,
    /// The sitting, where its marks wait for a release.
    pub sitting: Option<SittingId>,
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
    /// Whether it is held back from the learner.
    pub is_held: bool,
}

/// What is said instead of both markings while the examiner’s is held back.
pub const HELD_SIDE: &str = "What the examiner gave is held until the sitting is released.";

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
    /// What the examiner gave is held back until its sitting is released.
    Held {
        /// The maker's own marking, which is not.
        own: MarkingId,
    },
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
    let is_held = ledger.standing_for(piece.id, Whom::Learner).is_held();
    let other = standing.own_and_counting().and_then(|(own, counting)| {
        if marking.id == own.id {
            // The maker looks at it, and the examiner’s is not for the maker yet.
            (!is_held).then_some((counting.id, "The examiner’s sheet"))
        } else {
            (marking.id == counting.id).then_some((own.id, "The maker’s own sheet"))
        }
    });
    with_scored(ledger, rubrics, marking, |scored| SheetPage {
        piece: piece.id,
        marking: marking.id,
        document: scored_sheet(scored),
        file_base: sheet_base(scored),
        sealed: marking.seal.is_some(),
        learner: piece
            .learner
            .zip(scored.learner().map(str::to_owned))
            .filter(|(id, _)| ledger.learner(*id).is_some()),
        other,
        again: further(ledger, piece),
        agree: agree_words(ledger, piece.id),
        is_agreed: marking.agreement.is_some(),
        after_seal: AfterSeal::of(ledger, marking.id),
        feedback: Feedback::of(ledger, piece.id),
        sitting: ledger
            .sitting(piece.sitting)
            .filter(|sitting| sitting.kind.waits())
            .map(|sitting| sitting.id),
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

/// The sheet that is opened once `marking` is sealed, where that is not the piece's: its
/// maker, who sealed it, is not led to what is held back.
pub fn own_sheet(ledger: &Ledger, marking: MarkingId) -> Option<MarkingId> {
    let marking = ledger.marking(marking)?;
    let standing = ledger.standing_for(marking.piece, Whom::Learner);
    let is_own = standing.own().is_some_and(|own| own.id == marking.id);
    (is_own && standing.is_held()).then_some(marking.id)
}

/// The ways to one more marking, on a sheet of which all may be seen: the role's word in
/// an address, and what it is called.
fn further(ledger: &Ledger, piece: &Piece) -> Vec<(&'static str, &'static str)> {
    if ledger.standing(piece.id).is_apart() {
        return Vec::new();
    }
    let roles = further_roles(ledger, piece.id).into_iter();
    roles.map(|role| (role.word(), again_words(role))).collect()
}

/// The maker's own marking of `piece` beside the one that counts, as far as `whom` may see
/// both.
///
/// *Errors:* [`NoSheet`].
pub fn side_page(
    ledger: &Ledger,
    rubrics: &Rubrics,
    piece: PieceId,
    whom: Whom,
) -> Result<SidePage, NoSheet> {
    let piece = ledger.piece(piece).ok_or(NoSheet::Lost)?;
    let standing = ledger.standing(piece.id);
    if standing.is_apart() {
        return Err(NoSheet::Unseen);
    }
    let (own, counting) = standing.own_and_counting().ok_or(NoSheet::Alone)?;
    let is_held = ledger.standing_for(piece.id, Whom::Learner).is_held();
    if is_held && whom == Whom::Learner {
        return Err(NoSheet::Held { own: own.id });
    }
    let whose = maker_name(ledger, piece);
    let page = with_scored(ledger, rubrics, own, |mine| {
        with_scored(ledger, rubrics, counting, |counted| SidePage {
            piece: piece.id,
            own: own.id,
            counting: counting.id,
            document: beside(&whose, mine, counted),
            file_base: format!("{}_side-by-side", sheet_base(counted)),
            is_held,
        })
    });
    page.flatten().ok_or(NoSheet::NoRubric)
}

/// Whether pages and files may show what `marking` gives: a draft to whoever asks for it
/// by its address, a sealed one not before every blind marking of the piece is sealed.
pub(super) fn may_be_seen(ledger: &Ledger, marking: &Marking) -> bool {
    marking.seal.is_none() || !ledger.standing(marking.piece).is_unseen()
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
    let rubric = rubric_of(ledger, rubrics, marking)?;
    Some(see(&Scored::in_ledger(ledger, marking, &rubric)?))
}

pub(super) fn rubric_of(
    ledger: &Ledger,
    rubrics: &Rubrics,
    marking: &Marking,
) -> Option<Arc<Rubric>> {
    rubrics.get(ledger.rubric(&marking.rubric)?)
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
