use std::collections::BTreeMap;

use super::ids::{LearnerId, PieceId};
use super::ledger::Ledger;
use super::people::Learner;
use super::piece::{Ended, Piece};
use super::record::{Kind, RecordKey};

/// Something that a person has to know before a file is taken over.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Note {
    /// Which record it is about.
    pub about: RecordKey,
    /// What it is.
    pub what: What,
}

/// What there is to know about a record.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum What {
    /// Sealed on both sides, and not alike: the one here stays.
    SealedTwice,
    /// Seals on both sides cover its piece, and say different things of it.
    SealedPiece,
    /// The same of a sitting.
    SealedSitting,
    /// Another text under the same digest: the one here stays.
    RubricDiffers,
    /// What cannot be read here is never overwritten.
    UnreadableHere,
    /// The file has later changes; what is sealed here stays.
    SealedHere,
    /// There are later changes here; what is sealed in the file takes their place.
    SealedInFile,
    /// What it said was erased here and is in the file still: it stays erased.
    ErasedHere,
    /// What it said was erased in the file: it is erased here too.
    ErasedInFile,
    /// A draft here is replaced by the file's later one, or by a sealed one.
    DraftReplaced,
    /// The file brings another learner of the same name and number.
    SameName {
        /// The one here.
        here: LearnerId,
    },
    /// The file brings another piece of the same ticket.
    SameTicket {
        /// The one here.
        here: PieceId,
    },
}

/// Learners and tickets that two devices have each made for themselves.
pub(super) fn doubles(here: &Ledger, there: &Ledger) -> Vec<Note> {
    let named: BTreeMap<_, _> = here
        .learners()
        .filter(|learner| learner.erased.is_none())
        .map(|learner| (called(learner), learner.id))
        .collect();
    let names = there
        .learners()
        .filter(|learner| here.learner(learner.id).is_none())
        .filter_map(|learner| {
            let here = *named.get(&called(learner))?;
            let about = RecordKey::new(Kind::Learner, learner.id);
            let what = What::SameName { here };
            Some(Note { about, what })
        });
    let ticketed: BTreeMap<_, _> = here
        .pieces()
        .filter_map(|piece| Some((ticket_of(here, piece)?, piece.id)))
        .collect();
    let tickets = there
        .pieces()
        .filter(|piece| here.piece(piece.id).is_none())
        .filter_map(|piece| {
            let here = *ticketed.get(&ticket_of(there, piece)?)?;
            let about = RecordKey::new(Kind::Piece, piece.id);
            let what = What::SameTicket { here };
            Some(Note { about, what })
        });
    names.chain(tickets).collect()
}

fn called(learner: &Learner) -> impl Ord {
    (learner.name.to_lowercase(), learner.given_number.clone())
}

/// Ticket and sitting, which are a piece's identity across devices. Each device
/// makes its own sitting of a kind and day; a broken piece gives its ticket up.
fn ticket_of(ledger: &Ledger, piece: &Piece) -> Option<impl Ord> {
    let ticket = piece.ticket.clone()?;
    if ledger.ended(piece) == Some(Ended::BrokenOrRestarted) {
        return None;
    }
    let sitting = ledger.sitting(piece.sitting)?;
    Some((sitting.kind, sitting.day, sitting.name.clone(), ticket))
}
