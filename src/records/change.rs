use std::collections::BTreeMap;

use super::ids::{ExaminerId, LearnerId, MarkingId, MilestoneId, PieceId, RubricDraftId, StudyId};
use super::picture::PictureBytes;
use super::record::{Record, RecordKey};

/// What one command does to a ledger, to be stored as a whole or not at all.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Change {
    /// Records as they stand afterwards.
    pub puts: Vec<Record>,
    /// The bytes of the pictures among them, by digest.
    pub bytes: BTreeMap<String, PictureBytes>,
    /// Records that are gone afterwards; a picture's bytes go with it.
    pub deletes: Vec<RecordKey>,
    /// Records that the change was decided by and does not write: it must not be
    /// stored where one of them has changed meanwhile.
    pub relies_on: Vec<RecordKey>,
    /// Ids that the command made or found.
    pub made: Made,
}

impl Change {
    /// Whether there is nothing to store.
    pub fn is_empty(&self) -> bool {
        self.puts.is_empty() && self.deletes.is_empty()
    }
}

/// Ids that a command made or found, for the page to go on with.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Made {
    /// A learner.
    pub learner: Option<LearnerId>,
    /// An examiner.
    pub examiner: Option<ExaminerId>,
    /// A milestone.
    pub milestone: Option<MilestoneId>,
    /// A piece.
    pub piece: Option<PieceId>,
    /// A marking.
    pub marking: Option<MarkingId>,
    /// A rubric in work.
    pub rubric_draft: Option<RubricDraftId>,
    /// An instrument study.
    pub study: Option<StudyId>,
}
