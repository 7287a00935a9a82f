use std::fmt;
use std::str::FromStr;
use std::sync::Arc;

use serde::{Deserialize, Serialize};

use super::columns::TableHead;
use super::instrument::OwnInstrument;
use super::marking::Marking;
use super::milestone::Milestone;
use super::people::{Examiner, Learner, Sitting};
use super::picture::Picture;
use super::piece::{Piece, RubricDraft, RubricVersion};
use super::stamp::{Device, Stamp};
use super::study::Study;

/// What a record is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Kind {
    /// [`Learner`].
    Learner,
    /// [`Examiner`].
    Examiner,
    /// [`Milestone`].
    Milestone,
    /// [`Sitting`].
    Sitting,
    /// [`OwnInstrument`].
    Instrument,
    /// [`Study`].
    Study,
    /// [`TableHead`].
    TableHead,
    /// [`Picture`].
    Picture,
    /// [`RubricVersion`].
    Rubric,
    /// [`RubricDraft`].
    RubricDraft,
    /// [`Piece`].
    Piece,
    /// [`Marking`].
    Marking,
}

impl Kind {
    /// Every kind; what a record names comes before it.
    pub const ALL: [Self; 12] = [
        Self::Learner,
        Self::Examiner,
        Self::Milestone,
        Self::Sitting,
        Self::Instrument,
        Self::Study,
        Self::TableHead,
        Self::Picture,
        Self::Rubric,
        Self::RubricDraft,
        Self::Piece,
        Self::Marking,
    ];

    /// The kind as files and keys write it.
    pub fn word(self) -> &'static str {
        match self {
            Self::Learner => "learner",
            Self::Examiner => "examiner",
            Self::Milestone => "milestone",
            Self::Sitting => "sitting",
            Self::Instrument => "instrument",
            Self::Study => "study",
            Self::TableHead => "table-head",
            Self::Picture => "picture",
            Self::Rubric => "rubric",
            Self::RubricDraft => "rubric-draft",
            Self::Piece => "piece",
            Self::Marking => "marking",
        }
    }

    /// The kind that files write so.
    pub fn from_word(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|kind| kind.word() == word)
    }

    /// The schema number that this program writes.
    pub fn schema(self) -> u32 {
        match self {
            Self::Marking => 10,
            Self::Learner => 3,
            Self::Examiner | Self::Sitting | Self::Piece | Self::Instrument => 2,
            _ => 1,
        }
    }
}

impl fmt::Display for Kind {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.word())
    }
}

/// Where a record is kept: its kind and id. Print and parse: `marking/0199…`.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct RecordKey {
    /// What it is about.
    pub kind: Kind,
    /// Its id as text.
    pub id: String,
}

impl RecordKey {
    /// The key of the `kind` named `id`.
    pub fn new(kind: Kind, id: impl ToString) -> Self {
        Self {
            kind,
            id: id.to_string(),
        }
    }
}

impl fmt::Display for RecordKey {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}/{}", self.kind, self.id)
    }
}

impl FromStr for RecordKey {
    type Err = KeyError;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        text.split_once('/')
            .and_then(|(kind, id)| Some(Self::new(Kind::from_word(kind)?, id)))
            .ok_or_else(|| KeyError(text.to_owned()))
    }
}

/// A text that names no record.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("`{0}` is not the key of a record; keys look like marking/0199…")]
pub struct KeyError(String);

/// Any record that is kept; cheap to clone.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Record {
    /// A person who makes.
    Learner(Arc<Learner>),
    /// A person who marks.
    Examiner(Arc<Examiner>),
    /// A note on a learner's training.
    Milestone(Arc<Milestone>),
    /// An occasion.
    Sitting(Arc<Sitting>),
    /// What is measured with.
    Instrument(Arc<OwnInstrument>),
    /// How well is measured with it.
    Study(Arc<Study>),
    /// What a table’s columns are called.
    TableHead(Arc<TableHead>),
    /// A picture, without its bytes.
    Picture(Arc<Picture>),
    /// A rubric's text.
    Rubric(Arc<RubricVersion>),
    /// A rubric in work.
    RubricDraft(Arc<RubricDraft>),
    /// A thing made.
    Piece(Arc<Piece>),
    /// One examiner's facts about it.
    Marking(Arc<Marking>),
}

impl Record {
    /// What it is about.
    pub fn kind(&self) -> Kind {
        match self {
            Self::Learner(_) => Kind::Learner,
            Self::Examiner(_) => Kind::Examiner,
            Self::Milestone(_) => Kind::Milestone,
            Self::Sitting(_) => Kind::Sitting,
            Self::Instrument(_) => Kind::Instrument,
            Self::Study(_) => Kind::Study,
            Self::TableHead(_) => Kind::TableHead,
            Self::Picture(_) => Kind::Picture,
            Self::Rubric(_) => Kind::Rubric,
            Self::RubricDraft(_) => Kind::RubricDraft,
            Self::Piece(_) => Kind::Piece,
            Self::Marking(_) => Kind::Marking,
        }
    }

    /// Where it is kept.
    pub fn key(&self) -> RecordKey {
        let id = match self {
            Self::Learner(learner) => learner.id.to_string(),
            Self::Examiner(examiner) => examiner.id.to_string(),
            Self::Milestone(milestone) => milestone.id.to_string(),
            Self::Sitting(sitting) => sitting.id.to_string(),
            Self::Instrument(instrument) => instrument.id.clone(),
            Self::Study(study) => study.id.to_string(),
            Self::TableHead(head) => head.layout.word().to_owned(),
            Self::Picture(picture) => picture.digest.clone(),
            Self::Rubric(rubric) => rubric.digest.clone(),
            Self::RubricDraft(draft) => draft.id.to_string(),
            Self::Piece(piece) => piece.id.to_string(),
            Self::Marking(marking) => marking.id.to_string(),
        };
        RecordKey {
            kind: self.kind(),
            id,
        }
    }

    /// When and by whom it was last written.
    pub fn stamp(&self) -> &Stamp {
        match self {
            Self::Learner(learner) => &learner.stamp,
            Self::Examiner(examiner) => &examiner.stamp,
            Self::Milestone(milestone) => &milestone.stamp,
            Self::Sitting(sitting) => &sitting.stamp,
            Self::Instrument(instrument) => &instrument.stamp,
            Self::Study(study) => &study.stamp,
            Self::TableHead(head) => &head.stamp,
            Self::Picture(picture) => &picture.stamp,
            Self::Rubric(rubric) => &rubric.stamp,
            Self::RubricDraft(draft) => &draft.stamp,
            Self::Piece(piece) => &piece.stamp,
            Self::Marking(marking) => &marking.stamp,
        }
    }

    /// Whether a command of `device` made this, whoever wrote it since.
    ///
    /// Told by the id. A rubric's text and a picture have their digest for
    /// an id and never change, so their stamp tells. An instrument has its short name for an
    /// id, the head of a table its layout, and both may be written again, so nothing tells, and they are
    /// nobody's.
    pub fn was_made_by(&self, device: &Device) -> bool {
        // The ordinals are those of the commands; one may make several of a kind.
        match self {
            Self::Learner(learner) => learner.id.was_made_by(device, 0),
            Self::Examiner(examiner) => [1, 6, 8]
                .iter()
                .any(|at| examiner.id.was_made_by(device, *at)),
            Self::Milestone(milestone) => milestone.id.was_made_by(device, 11),
            Self::Sitting(sitting) => sitting.id.was_made_by(device, 2),
            Self::Instrument(_) | Self::TableHead(_) => false,
            Self::Study(study) => study.id.was_made_by(device, 10),
            Self::Picture(picture) => picture.stamp.device == *device,
            Self::Rubric(rubric) => rubric.stamp.device == *device,
            Self::RubricDraft(draft) => draft.id.was_made_by(device, 5),
            Self::Piece(piece) => piece.id.was_made_by(device, 3),
            Self::Marking(marking) => [4, 7, 9]
                .iter()
                .any(|at| marking.id.was_made_by(device, *at)),
        }
    }
}

macro_rules! from {
    ($($name:ident $of:ident),*) => {
        $(impl From<$of> for Record {
            fn from(record: $of) -> Self {
                Self::$name(Arc::new(record))
            }
        })*
    };
}

from!(Learner Learner, Examiner Examiner, Milestone Milestone, Sitting Sitting, Instrument OwnInstrument, Study Study, TableHead TableHead, Picture Picture, Rubric RubricVersion, RubricDraft RubricDraft, Piece Piece, Marking Marking);
