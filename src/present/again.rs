//! The form for marking a piece once more.

use super::makers::{maker_name, piece_words};
use super::offers::{Offer, entry_ids, self_checks};
use super::scores::Rubrics;
use super::start::{StartForm, sentence};
use crate::command::{Command, CommandError, MarkAgain};
use crate::records::{Ledger, Moment, PieceId, Role};

/// What the page says and asks.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct AgainPage {
    /// The piece.
    pub piece: PieceId,
    /// Whose it is, as far as that may be said.
    pub title: String,
    /// What it is.
    pub about: String,
    /// As whom it can be marked.
    pub roles: Vec<Role>,
    /// What the maker may mark by beside the piece's own rubric.
    pub own_rubrics: Vec<Offer>,
    /// What marking once more does, sentence by sentence.
    pub does: [&'static str; 2],
}

const SEALED: [&str; 2] = [
    "What is sealed of this piece stays unseen from now until this marking is sealed.",
    "Whoever has seen it already does not mark blind: the other marking may lead them.",
];
const OPEN: [&str; 2] = [
    "Neither marking is seen by the other before both are sealed.",
    "Whoever has seen the other one already does not mark blind: it may lead them.",
];

/// The form's page for `piece`; `None` where there is no such piece, or nothing of it.
pub fn again_page(
    ledger: &Ledger,
    rubrics: &Rubrics,
    offers: &[Offer],
    piece: PieceId,
) -> Option<AgainPage> {
    let piece = ledger.piece(piece)?;
    let is_sealed = ledger
        .markings_of(piece.id)
        .any(|marking| marking.seal.is_some());
    ledger.markings_of(piece.id).next()?;
    let version = ledger.rubric(&piece.rubric);
    let own_rubrics = version.and_then(|version| {
        let rubric = rubrics.get(version)?;
        let own = self_checks(offers, &version.rubric_id, &entry_ids(&rubric));
        Some(own.into_iter().cloned().collect())
    });
    Some(AgainPage {
        piece: piece.id,
        title: maker_name(ledger, piece),
        about: piece_words(ledger, piece),
        roles: further_roles(ledger, piece.id),
        own_rubrics: own_rubrics.unwrap_or_default(),
        does: if is_sealed { SEALED } else { OPEN },
    })
}

/// What is typed on the page.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct AgainForm {
    /// The word of a [`Role`].
    pub role: String,
    /// The examiner's name, where an examiner marks.
    pub examiner: String,
    /// Key of the [`Offer`] by which the maker marks; [`StartForm::SAME`] is the piece's
    /// own.
    pub rubric: String,
    /// A word of [`StartForm::UNITS`].
    pub unit: String,
}

/// What is wrong with it.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct AgainErrors {
    /// About the examiner.
    pub examiner: Option<String>,
    /// About something else.
    pub other: Option<String>,
}

impl AgainErrors {
    /// What a refused command says.
    pub fn refused(error: &CommandError) -> Self {
        Self {
            other: Some(sentence(&error.to_string())),
            ..Self::default()
        }
    }
}

impl AgainForm {
    /// The form as it is first shown.
    pub fn fresh(page: &AgainPage, examiner: String, unit: &str) -> Self {
        let role = page.roles.first().copied().unwrap_or(Role::Own);
        Self {
            role: role.word().to_owned(),
            examiner,
            rubric: StartForm::SAME.to_owned(),
            unit: StartForm::known_unit(unit).to_owned(),
        }
    }

    /// The form with the role whose word is `asked`, where that can be begun.
    pub fn asked_for(self, page: &AgainPage, asked: &str) -> Self {
        let can_be = page.roles.iter().any(|role| role.word() == asked);
        Self {
            role: if can_be { asked.to_owned() } else { self.role },
            ..self
        }
    }

    fn role(&self, page: &AgainPage) -> Role {
        let mut roles = page.roles.iter().copied();
        roles
            .find(|role| role.word() == self.role)
            .unwrap_or(Role::First)
    }

    /// Whether the maker marks, so that no examiner is asked for.
    pub fn is_own(role: &str) -> bool {
        role == Role::Own.word()
    }

    /// The command that the form asks for.
    ///
    /// *Errors:* what is wrong with it.
    pub fn read(&self, page: &AgainPage, at: Moment) -> Result<Command, AgainErrors> {
        let is_own = Self::is_own(&self.role);
        if !is_own && self.examiner.trim().is_empty() {
            return Err(AgainErrors {
                examiner: Some("Give the name of whoever marks.".to_owned()),
                ..AgainErrors::default()
            });
        }
        let offers = page.own_rubrics.iter();
        let rubric = offers.filter(|offer| is_own && offer.key() == self.rubric);
        Ok(Command::MarkAgain(Box::new(MarkAgain {
            piece: page.piece,
            examiner: if is_own {
                String::new()
            } else {
                self.examiner.clone()
            },
            rubric: rubric.map(|offer| offer.rubric.clone()).next(),
            unit: StartForm::unit_of(&self.unit),
            role: self.role(page),
            at,
        })))
    }
}

/// Title and note of a role that a marking can be begun in.
pub fn role_choice(role: Role) -> (&'static str, &'static str) {
    match role {
        Role::Own => ("the maker", "marks their own piece"),
        Role::Second => (
            "a second examiner",
            "marks without seeing the first marking",
        ),
        Role::Third => (
            "a third examiner",
            "marks without seeing the others’ markings",
        ),
        _ => ("an examiner", "marks somebody else’s piece"),
    }
}

/// As whom `piece` can be marked once more: each role once, a second examiner after a
/// first, a third after a second, nobody while examiners agree.
pub(super) fn further_roles(ledger: &Ledger, piece: PieceId) -> Vec<Role> {
    let has = |role: Role| {
        let mut markings = ledger.markings_of(piece);
        markings.any(|marking| marking.role == role)
    };
    let mut drafts = ledger.standing(piece).drafts().to_vec().into_iter();
    if drafts.any(|draft| draft.role == Role::Agreed) {
        return Vec::new();
    }
    let next = [Role::First, Role::Second, Role::Third];
    let next = next.into_iter().find(|role| !has(*role));
    let own = Some(Role::Own).filter(|_| !has(Role::Own));
    own.into_iter().chain(next).collect()
}

/// What the way to a further marking is called on a sheet.
pub(super) fn again_words(role: Role) -> &'static str {
    match role {
        Role::Own => "Mark it yourself",
        Role::Second => "Mark as second examiner",
        Role::Third => "Mark as third examiner",
        _ => "Mark as examiner",
    }
}
