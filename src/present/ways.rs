//! Which marking of a piece an address opens, and what is said where there are several.

use super::makers::{maker_name, name_known, piece_words, set_apart};
use super::pieces::{far_words, typed};
use super::scores::Rubrics;
use crate::records::{ExaminerId, Ledger, Marking, MarkingId, Piece, PieceId, Role};

/// What the address of a piece or of a marking opens.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PieceWay {
    /// Nothing here.
    Lost,
    /// The question who marks now.
    Choose(PieceId),
    /// The page on which its examiners agree.
    Agree(PieceId),
    /// One marking.
    Open {
        /// Its piece.
        piece: PieceId,
        /// Which.
        marking: MarkingId,
        /// Whether it is sealed.
        sealed: bool,
    },
}

/// What opens for `piece`, or for the marking `wanted` of it. What was open `before` on
/// the same page stays open, whatever is begun beside it.
pub fn piece_way(
    ledger: &Ledger,
    piece: PieceId,
    wanted: Option<MarkingId>,
    before: Option<MarkingId>,
) -> PieceWay {
    let Some(piece) = ledger.piece(piece) else {
        return PieceWay::Lost;
    };
    let find = |id: Option<MarkingId>| {
        let marking = ledger.marking(id?)?;
        (marking.piece == piece.id).then_some(marking)
    };
    let open = |marking: &Marking| match (&marking.agreement, &marking.seal) {
        (Some(_), None) => PieceWay::Agree(piece.id),
        (_, seal) => PieceWay::Open {
            piece: piece.id,
            marking: marking.id,
            sealed: seal.is_some(),
        },
    };
    if wanted.is_some() {
        return find(wanted).map_or(PieceWay::Lost, open);
    }
    if let Some(before) = find(before) {
        return open(before);
    }
    match ledger.standing(piece.id).drafts() {
        [] => {
            let sealed = ledger.markings_of(piece.id).next();
            sealed.map_or(PieceWay::Lost, open)
        }
        [draft] => open(draft),
        _ => PieceWay::Choose(piece.id),
    }
}

/// The open markings of a piece, and what is sealed of it and not to be seen yet.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct OpenMarkings {
    /// The piece.
    pub piece: PieceId,
    /// Whose it is, as far as that may be said.
    pub title: String,
    /// What it is.
    pub about: String,
    /// What is sealed, by whom and when: one line each.
    pub sealed: Vec<String>,
    /// What becomes of the marks.
    pub says: &'static str,
    /// The drafts, oldest first.
    pub ways: Vec<MarkWay>,
}

/// The way to one draft.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct MarkWay {
    /// Which.
    pub marking: MarkingId,
    /// Who marks.
    pub who: String,
    /// What it counts as, or is marked by, where that is not as usual; may be empty.
    pub role: String,
    /// How far it is; no marks.
    pub far: String,
    /// What it is called in a sentence: `the maker’s own marking`.
    pub called: String,
}

const UNTIL_ALL: &str = "Nobody sees what another gives before all of them are sealed.";
const UNSEEN: &str = "The marks stay unseen until every open marking of the piece is sealed too, \
    so that nobody is led by another.";

/// The open markings of `piece`; `None` where there is no such piece or none is open.
pub fn open_markings(ledger: &Ledger, rubrics: &Rubrics, piece: PieceId) -> Option<OpenMarkings> {
    let piece = ledger.piece(piece)?;
    let standing = ledger.standing(piece.id);
    if standing.drafts().is_empty() {
        return None;
    }
    let sealed = standing.unseen().into_iter().map(|unseen| {
        let role = role_words(unseen.role);
        match by(ledger, piece, unseen.role, unseen.examiner) {
            Some(by) => format!("{role} by {by}, sealed {}", unseen.at),
            None => format!("{role}, sealed {}", unseen.at),
        }
    });
    let sealed: Vec<String> = sealed.collect();
    // Examiners in their order, then the maker.
    let mut drafts = standing.drafts().to_vec();
    drafts.sort_by_key(|marking| (marking.role == Role::Own, marking.role));
    Some(OpenMarkings {
        piece: piece.id,
        title: maker_name(ledger, piece),
        about: piece_words(ledger, piece),
        says: if sealed.is_empty() { UNTIL_ALL } else { UNSEEN },
        sealed,
        ways: drafts
            .into_iter()
            .map(|marking| way(ledger, rubrics, piece, marking))
            .collect(),
    })
}

fn way(ledger: &Ledger, rubrics: &Rubrics, piece: &Piece, marking: &Marking) -> MarkWay {
    let by = by(ledger, piece, marking.role, marking.examiner);
    let called = match (marking.role, &by) {
        (Role::Own, _) => "the maker’s own marking".to_owned(),
        (_, Some(by)) => format!("the marking of {by}"),
        (_, None) => "this marking".to_owned(),
    };
    let other = ledger
        .rubric(&marking.rubric)
        .filter(|_| marking.rubric != piece.rubric);
    let role = match marking.role {
        // Who marks says it.
        Role::Own | Role::First => "",
        role => role_words(role),
    };
    MarkWay {
        marking: marking.id,
        who: match (marking.role, by) {
            (Role::Own, Some(by)) => format!("The maker: {by}"),
            (Role::Own, None) => "The maker".to_owned(),
            (_, by) => format!("Examiner: {}", by.unwrap_or_default()),
        },
        role: other.map_or(role, |other| &other.title).to_owned(),
        far: far_words(typed(marking), rubrics.score(ledger, marking).as_ref()),
        called,
    }
}

/// Who marks, as far as that may be said: not the maker of a ticket.
pub(super) fn by(
    ledger: &Ledger,
    piece: &Piece,
    role: Role,
    examiner: ExaminerId,
) -> Option<String> {
    let may_say = role != Role::Own || name_known(ledger, piece);
    let examiner = ledger.examiner(examiner).filter(|_| may_say)?;
    Some(set_apart(&examiner.name))
}

/// Who marks, in a sentence of its own after a space: ` Examiner Wm. Green.`
pub fn marker_words(ledger: &Ledger, marking: MarkingId) -> String {
    let Some(marking) = ledger.marking(marking) else {
        return String::new();
    };
    if marking.role == Role::Own {
        let title = ledger
            .rubric(&marking.rubric)
            .filter(|rubric| {
                let piece = ledger.piece(marking.piece);
                piece.is_some_and(|piece| piece.rubric != rubric.digest)
            })
            .map(|rubric| format!(", by {}", rubric.title));
        return format!(" The maker’s own marking{}.", title.unwrap_or_default());
    }
    let examiner = ledger.examiner(marking.examiner);
    let examiner = examiner.map_or_else(String::new, |examiner| {
        format!(" Examiner {}.", set_apart(&examiner.name))
    });
    match &marking.replaces {
        Some(replaces) => format!("{examiner} A correction: {}", set_apart(&replaces.reason)),
        None => examiner,
    }
}

/// What a role is called, with a capital.
fn role_words(role: Role) -> &'static str {
    match role {
        Role::Own => "Own marking",
        Role::First => "Examiner’s marking",
        Role::Second => "Second examiner’s marking",
        Role::Agreed => "Agreed marking",
        Role::Amended => "Amended marking",
        Role::Third => "Third examiner’s marking",
    }
}
