//! Whether what examiners gave is for the learner to see: the marks of a practice from
//! their seal on, those of a mock or an exam once somebody releases the sitting.

use serde::{Deserialize, Serialize};

use super::ids::{ExaminerId, PieceId};
use super::ledger::Ledger;
use super::marking::{Marking, Role};
use super::people::{Sitting, SittingKind};
use crate::quantity::Moment;

/// Who is to see something.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Whom {
    /// Whoever made the piece, and whoever else looks at a page that is for learners.
    Learner,
    /// Whoever marks.
    Examiner,
}

/// That somebody did something, and when.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Deed {
    /// When.
    pub at: Moment,
    /// Who did it.
    pub by: ExaminerId,
}

/// That the marks of a sitting were released to its learners.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Release {
    /// When.
    pub at: Moment,
    /// Who released them.
    pub by: ExaminerId,
    /// That they were held back again since; releasing anew takes the place of both.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub held_back: Option<Deed>,
}

impl SittingKind {
    /// Whether marks wait for a release; those of the other kinds are released by sealing.
    pub fn waits(self) -> bool {
        matches!(self, Self::Mock | Self::Exam)
    }
}

impl Sitting {
    /// The release that stands; `None` before it, after it was taken back, and where none
    /// is needed.
    pub fn release(&self) -> Option<&Release> {
        let released = self.released.as_ref().filter(|_| self.kind.waits());
        released.filter(|release| release.held_back.is_none())
    }

    /// Whether what examiners gave is held back from learners, whatever is sealed. What
    /// is sealed after a release is released with it.
    pub fn is_held(&self) -> bool {
        self.kind.waits() && self.release().is_none()
    }
}

impl Ledger {
    /// Whether what examiners gave to `piece` is held back from `whom`. A sitting that is
    /// not in the ledger may be one that waits, so its marks are held back too. What its
    /// maker gave is held back from nobody: [`Ledger::standing_for`].
    pub fn is_held(&self, piece: PieceId, whom: Whom) -> bool {
        let Some(piece) = self.piece(piece).filter(|_| whom == Whom::Learner) else {
            return false;
        };
        self.sitting(piece.sitting).is_none_or(Sitting::is_held)
    }

    /// Whether `whom` may see what `marking` gives, as far as a release decides it.
    pub fn is_released(&self, marking: &Marking, whom: Whom) -> bool {
        self.is_makers(marking) || !self.is_held(marking.piece, whom)
    }

    /// Whether the maker of the piece gave it: that is never held back.
    pub(super) fn is_makers(&self, marking: &Marking) -> bool {
        self.first_role(marking) == Role::Own
    }
}
