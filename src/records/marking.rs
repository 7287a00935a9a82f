use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use super::agreement::Agreement;
use super::ids::{ExaminerId, MarkingId, PieceId};
use super::seal::Seal;
use super::signature::Signature;
use super::stamp::Stamp;
use crate::marking::Facts;
use crate::quantity::{Moment, Unit};

/// What a marking counts as.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Role {
    /// By the maker; never enters agreement.
    #[serde(rename = "self")]
    Own,
    /// The first examiner's, made blind.
    First,
    /// The second examiner's, made blind.
    Second,
    /// What the examiners settled on.
    Agreed,
    /// Replaces a sealed one, which it names.
    Amended,
    /// A third examiner's, made blind.
    Third,
}

impl Role {
    /// Whether it is made without seeing what others gave.
    pub fn is_blind(self) -> bool {
        matches!(self, Self::Own | Self::First | Self::Second | Self::Third)
    }

    /// Whether an examiner made it alone.
    pub fn is_examiners(self) -> bool {
        matches!(self, Self::First | Self::Second | Self::Third)
    }

    /// The role in a word.
    pub fn word(self) -> &'static str {
        match self {
            Self::Own => "self",
            Self::First => "first",
            Self::Second => "second",
            Self::Agreed => "agreed",
            Self::Amended => "amended",
            Self::Third => "third",
        }
    }
}

/// The sealed marking that an amendment stands for, and why.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Replaces {
    /// The marking that no longer counts.
    pub marking: MarkingId,
    /// Why, printed on the sheet.
    pub reason: String,
}

/// A photo of what is marked.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Photo {
    /// Digest of the picture.
    pub picture: String,
    /// What it shows, as typed; may be empty.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub note: String,
}

/// One examiner's facts about one piece. Results are computed from them and
/// never stored.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Marking {
    /// Its id.
    pub id: MarkingId,
    /// Last written.
    pub stamp: Stamp,
    /// What is marked.
    pub piece: PieceId,
    /// What this marking counts as.
    pub role: Role,
    /// Who marks.
    pub examiner: ExaminerId,
    /// Which piece of the sitting this was for this examiner, from 1.
    pub order: u32,
    /// Digest of the rubric that is marked by.
    pub rubric: String,
    /// What a bare number means on this sheet.
    pub unit: Unit,
    /// What was seen and measured.
    pub facts: Facts,
    /// What the examiner wrote, by entry id.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub comments: BTreeMap<String, String>,
    /// What the examiner wrote on the whole.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub overall: Option<String>,
    /// Photos of the piece, as evidence of what was seen.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub photos: Vec<Photo>,
    /// Who typed it in from a sheet that the examiner filled in by hand; `None` where the
    /// examiner entered it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub typist: Option<String>,
    /// When it was begun.
    pub started: Moment,
    /// The sealed marking that this one stands for.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub replaces: Option<Replaces>,
    /// Set once the marking no longer changes.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub seal: Option<Seal>,
    /// What the key of the device that sealed it says to the seal.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub signature: Option<Signature>,
    /// When comments, overall comment, photos and the typist's name of a sealed marking were erased.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub erased: Option<Moment>,
    /// What it is made from, where it is the agreed one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub agreement: Option<Agreement>,
}

impl Photo {
    /// What a seal has of it.
    pub(super) fn sealed_text(&self) -> String {
        format!("{} {}", self.picture, self.note)
    }

    /// Reads what a seal has of it.
    pub(super) fn of_sealed_text(text: &str) -> Option<Self> {
        let (picture, note) = text.split_once(' ')?;
        Some(Self {
            picture: picture.to_owned(),
            note: note.to_owned(),
        })
    }
}

impl Marking {
    /// Digests of its pictures.
    pub fn pictures(&self) -> impl Iterator<Item = &str> {
        self.photos.iter().map(|photo| photo.picture.as_str())
    }
}
