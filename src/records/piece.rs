use serde::{Deserialize, Serialize};

use super::ids::{LearnerId, PieceId, RubricDraftId, SittingId};
use super::release::Deed;
use super::stamp::Stamp;
use crate::marking::heat_log::Stop;

/// How the making of a piece ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Ended {
    /// Handed in.
    Finished,
    /// Not done when the time was up.
    UnfinishedAtTime,
    /// Given up by the maker.
    Withdrawn,
    /// Stopped by an examiner.
    StoppedForSafety,
    /// Broken, or begun again on fresh stock.
    BrokenOrRestarted,
    /// Never begun.
    NotPresented,
}

impl From<Stop> for Ended {
    fn from(stop: Stop) -> Self {
        match stop {
            Stop::UnfinishedAtTime => Self::UnfinishedAtTime,
            Stop::Withdrawn => Self::Withdrawn,
            Stop::StoppedForSafety => Self::StoppedForSafety,
            Stop::BrokenOrRestarted => Self::BrokenOrRestarted,
        }
    }
}

impl Ended {
    /// Every way to end, in the order in which they are offered.
    pub const ALL: [Self; 6] = [
        Self::Finished,
        Self::UnfinishedAtTime,
        Self::Withdrawn,
        Self::StoppedForSafety,
        Self::BrokenOrRestarted,
        Self::NotPresented,
    ];

    /// As people write it.
    pub fn word(self) -> &'static str {
        match self {
            Self::Finished => "finished",
            Self::UnfinishedAtTime => "unfinished at time",
            Self::Withdrawn => "withdrawn",
            Self::StoppedForSafety => "stopped for safety",
            Self::BrokenOrRestarted => "broken or restarted",
            Self::NotPresented => "not presented",
        }
    }
}

/// What is assessed together: a shoe, a pair or a board.
///
/// *What is guaranteed* of pieces that commands make: there is a learner, a
/// ticket, or both.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Piece {
    /// Its id.
    pub id: PieceId,
    /// Last written.
    pub stamp: Stamp,
    /// Who made it, where that is known.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub learner: Option<LearnerId>,
    /// The number tied to it in its sitting, where it has one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub ticket: Option<String>,
    /// The learner stays unnamed on pages until the marking is sealed.
    #[serde(default, skip_serializing_if = "is_false")]
    pub hidden_until_sealed: bool,
    /// The occasion.
    pub sitting: SittingId,
    /// Digest of the rubric that it is made to.
    pub rubric: String,
    /// Which try of this learner at this rubric, from 1.
    pub attempt: u32,
    /// How its making ended; `None` while it goes on.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub ended: Option<Ended>,
    /// When its learner was told what to make of the marks, and by whom.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub feedback: Option<Deed>,
}

/// A rubric's text as a piece was marked by it, or as it was kept to mark by.
///
/// Never changed: another text has another digest and is another record.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RubricVersion {
    /// Digest of the rubric; this record's id.
    #[serde(rename = "id")]
    pub digest: String,
    /// Last written.
    pub stamp: Stamp,
    /// The rubric's own id, the same over its versions.
    pub rubric_id: String,
    /// Its version as it names it.
    pub version: String,
    /// Its title.
    pub title: String,
    /// The file's whole text.
    pub text: String,
}

/// A rubric in work: any text, however far it is from a rubric.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RubricDraft {
    /// Its id.
    pub id: RubricDraftId,
    /// Last written.
    pub stamp: Stamp,
    /// The text as far as it has come.
    pub text: String,
}

#[expect(
    clippy::trivially_copy_pass_by_ref,
    reason = "serde asks for a reference"
)]
fn is_false(value: &bool) -> bool {
    !value
}
