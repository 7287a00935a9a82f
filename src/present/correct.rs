//! The form for a correction of a sealed marking, and what is said before its text is
//! erased.

use super::makers::{maker_name, piece_words};
use super::start::sentence;
use crate::command::{Amend, Command, CommandError};
use crate::records::{Ledger, MarkingId, Moment, PieceId, Role};

/// What the page says.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CorrectPage {
    /// The piece.
    pub piece: PieceId,
    /// The marking that is to be corrected.
    pub marking: MarkingId,
    /// Whose the piece is.
    pub title: String,
    /// What it is, and when the marking was sealed.
    pub about: String,
}

/// What a correction does, sentence by sentence.
pub const CORRECTING_DOES: [&str; 3] = [
    "A correction is a marking of its own. It begins with all that this one holds; change what \
     was wrong and seal it.",
    "From its seal on it counts in place of this one. Both sheets stay, and each names the other, \
     who corrected, and why.",
    "Until it is sealed this one counts, and the correction can be thrown away.",
];

/// What erasing comments and photos of a sealed marking does, sentence by sentence.
pub const ERASING_DOES: [&str; 4] = [
    "All comments of this marking, the comment on the whole and its photos are removed from this \
     device for good. It cannot be undone.",
    "The marks stay, and the seal still shows that they are unchanged: the sheet says “Marks \
     intact, personal text erased” with the date.",
    "Names of learner and examiner are not part of this; a learner’s is erased on the page of the \
     learner. Nor are reasons given for a state, a pause, a lifted stop or a correction: they \
     belong to the marks.",
    "Files and printed sheets made before hold the text still. Another device erases it when it \
     reads a ledger file of this one.",
];

/// What erasing a learner does, sentence by sentence.
pub const ERASING_A_LEARNER_DOES: [&str; 4] = [
    "The name, number and all other details are removed from this device for good, and so are \
     the words of all milestones, and comments and photos at every piece of this learner. In \
     instrument studies the same name is replaced. It cannot be undone.",
    "Pieces and marks stay, without a name. Their seals still show that they are unchanged.",
    "A ticket’s number stays, and so do reasons given for a state, a pause, a lifted stop or a \
     correction: they belong to the marks. Look whether one of them tells who it was.",
    "Files and printed sheets made before hold all of it still. Another device erases it when it \
     reads a ledger file of this one.",
];

/// The page for correcting `marking` of `piece`; `None` where that is no sealed marking
/// of an examiner.
pub fn correct_page(ledger: &Ledger, piece: PieceId, marking: MarkingId) -> Option<CorrectPage> {
    let piece = ledger.piece(piece)?;
    let marking = ledger.marking(marking)?;
    let seal = marking.seal.as_ref()?;
    if marking.piece != piece.id
        || marking.role == Role::Own
        || marking.agreement.is_some()
        || ledger.standing(piece.id).is_unseen()
    {
        return None;
    }
    Some(CorrectPage {
        piece: piece.id,
        marking: marking.id,
        title: maker_name(ledger, piece),
        about: format!("{}, sealed {}", piece_words(ledger, piece), seal.at),
    })
}

/// What is typed on the page.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct CorrectForm {
    /// The name of whoever corrects.
    pub examiner: String,
    /// Why.
    pub reason: String,
}

/// What is wrong with it.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct CorrectErrors {
    /// About the examiner.
    pub examiner: Option<String>,
    /// About the reason.
    pub reason: Option<String>,
    /// About something else.
    pub other: Option<String>,
}

impl CorrectErrors {
    /// What a refused command says.
    pub fn refused(error: &CommandError) -> Self {
        Self {
            other: Some(sentence(&error.to_string())),
            ..Self::default()
        }
    }
}

impl CorrectForm {
    /// The command that the form asks for.
    ///
    /// *Errors:* what is wrong with it.
    pub fn read(&self, page: &CorrectPage, at: Moment) -> Result<Command, CorrectErrors> {
        let missing = |text: &str, says: &str| text.trim().is_empty().then(|| says.to_owned());
        let errors = CorrectErrors {
            examiner: missing(&self.examiner, "Give the name of whoever corrects."),
            reason: missing(&self.reason, "Say why: both sheets print it."),
            other: None,
        };
        if errors != CorrectErrors::default() {
            return Err(errors);
        }
        Ok(Command::Amend(Box::new(Amend {
            marking: page.marking,
            examiner: self.examiner.clone(),
            reason: self.reason.clone(),
            at,
        })))
    }
}

/// What can be done with a sealed marking, and which others it is tied to.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct AfterSeal {
    /// Whether a correction can be begun.
    pub corrects: bool,
    /// A correction that is begun and not sealed.
    pub open: Option<MarkingId>,
    /// The sealed marking that takes its place.
    pub after: Option<MarkingId>,
    /// The marking that it takes the place of.
    pub before: Option<MarkingId>,
    /// Whether there are comments to erase.
    pub erases: bool,
}

impl AfterSeal {
    /// Of `marking`, which may be a draft: then nothing can be done.
    pub fn of(ledger: &Ledger, marking: MarkingId) -> Self {
        let Some(marking) = ledger.marking(marking) else {
            return Self::default();
        };
        let before = marking.replaces.as_ref().map(|replaces| replaces.marking);
        let before = before.filter(|before| ledger.marking(*before).is_some());
        if marking.seal.is_none() {
            return Self {
                before,
                ..Self::default()
            };
        }
        let replacing = ledger.markings_of(marking.piece).filter(|other| {
            let replaces = other.replaces.as_ref();
            replaces.is_some_and(|replaces| replaces.marking == marking.id)
        });
        let (sealed, open): (Vec<_>, Vec<_>) = replacing.partition(|other| other.seal.is_some());
        let standing = ledger.standing(marking.piece);
        Self {
            corrects: marking.role != Role::Own
                && marking.agreement.is_none()
                && sealed.is_empty()
                && open.is_empty()
                && !standing.is_unseen(),
            open: open.first().map(|other| other.id),
            after: sealed.first().map(|other| other.id),
            before,
            erases: !marking.comments.is_empty()
                || marking.overall.is_some()
                || !marking.photos.is_empty(),
        }
    }
}
