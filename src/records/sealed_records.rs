//! The records that a sealed document tells of, read back from the document alone.

use std::collections::BTreeMap;

use serde::Deserialize;

use super::agreement::Agreement;
use super::ids::{ExaminerId, LearnerId, MarkingId, PieceId, SittingId};
use super::marking::{Marking, Photo, Replaces, Role};
use super::people::{Examiner, Learner, NAME_ERASED, Sitting, SittingKind};
use super::piece::{Ended, Piece, RubricVersion};
use super::seal::{DOCUMENT, DOCUMENT_SCHEMA, Salted, Seal, SealError, SealParts};
use super::stamp::{Device, Stamp};
use crate::marking::Facts;
use crate::quantity::{Day, Moment, Unit};

/// A personal text with the digest and salt that it was sealed by.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SaltedText {
    /// Digest and salt.
    pub salted: Salted,
    /// The text, where it is there still.
    pub text: Option<String>,
}

/// Everything that one seal covers, without a ledger around it.
///
/// *What is guaranteed:* [`sealed_document`](super::sealed_document) of
/// [`SealedRecords::parts`] writes the document again that they were read from, with the
/// digests of the personal texts given here.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SealedRecords {
    /// The marking with its seal.
    pub marking: Marking,
    /// What was marked.
    pub piece: Piece,
    /// On what occasion.
    pub sitting: Sitting,
    /// By what.
    pub rubric: RubricVersion,
    /// By whom; without a name where that text is not there.
    pub examiner: Examiner,
    /// Who made it, where the name is there.
    pub learner: Option<Learner>,
}

impl SealedRecords {
    /// The records as a seal covers them.
    pub fn parts(&self) -> SealParts<'_> {
        SealParts {
            marking: &self.marking,
            piece: &self.piece,
            sitting: &self.sitting,
            rubric: &self.rubric,
            examiner: &self.examiner,
            learner: self.learner.as_ref(),
        }
    }

    /// Reads the JSON text of a `document`, whose seal has this `digest`, with its personal
    /// texts by label.
    ///
    /// Whether the digest fits is not looked at. Stamps, and what no seal covers, are
    /// made up. *Errors:* [`SealError::Unread`].
    pub fn read(
        document: &str,
        digest: &str,
        personal: &BTreeMap<String, SaltedText>,
    ) -> Result<Self, SealError> {
        let unread = |why: String| SealError::Unread { why };
        let read: Document =
            serde_json::from_str(document).map_err(|error| unread(error.to_string()))?;
        if read.document != DOCUMENT || read.schema != DOCUMENT_SCHEMA {
            return Err(unread(format!(
                "it calls itself `{}`, schema {}",
                read.document, read.schema
            )));
        }
        Ok(read.records(digest, personal))
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Document {
    document: String,
    schema: u64,
    marking: OfMarking,
    piece: OfPiece,
    sitting: OfSitting,
    rubric: OfRubric,
    facts: Facts,
    agreement: Option<Agreement>,
    #[serde(rename = "personal")]
    _personal: BTreeMap<String, String>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct OfMarking {
    id: MarkingId,
    role: Role,
    examiner: ExaminerId,
    order: u32,
    unit: Unit,
    started: Moment,
    replaces: Option<Replaces>,
    sealed: Moment,
    sealed_by: ExaminerId,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct OfPiece {
    id: PieceId,
    learner: Option<LearnerId>,
    ticket: Option<String>,
    attempt: u32,
    ended: Option<Ended>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct OfSitting {
    id: SittingId,
    kind: SittingKind,
    day: Day,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct OfRubric {
    digest: String,
    id: String,
    version: String,
    title: String,
    text: String,
}

impl Document {
    fn records(self, digest: &str, personal: &BTreeMap<String, SaltedText>) -> SealedRecords {
        let Self {
            marking,
            piece,
            sitting,
            rubric,
            facts,
            agreement,
            ..
        } = self;
        let stamp = Stamp::first(0, Device::new("", [0; 8]));
        let text = |label: &str| personal.get(label)?.text.clone();
        let comments = personal.iter().filter_map(|(label, salted)| {
            let entry = label.strip_prefix("comment/")?;
            Some((entry.to_owned(), salted.text.clone()?))
        });
        // By label, which is as they stood.
        let photos = personal.iter().filter_map(|(label, salted)| {
            label.strip_prefix("photo/")?;
            Photo::of_sealed_text(salted.text.as_deref()?)
        });
        let salts = personal.iter();
        let seal = Seal {
            digest: digest.to_owned(),
            at: marking.sealed,
            by: marking.sealed_by,
            personal: salts
                .map(|(label, text)| (label.clone(), text.salted.clone()))
                .collect(),
        };
        let learner = piece.learner.zip(text("learner"));
        SealedRecords {
            learner: learner.map(|(id, name)| Learner::named(id, stamp.clone(), name)),
            examiner: Examiner {
                id: marking.examiner,
                stamp: stamp.clone(),
                name: text("examiner").unwrap_or_else(|| NAME_ERASED.to_owned()),
                // When is not in the file, so the seal's own time stands for it.
                erased: text("examiner").is_none().then_some(marking.sealed),
            },
            marking: Marking {
                id: marking.id,
                stamp: stamp.clone(),
                piece: piece.id,
                role: marking.role,
                examiner: marking.examiner,
                order: marking.order,
                rubric: rubric.digest.clone(),
                unit: marking.unit,
                facts,
                comments: comments.collect(),
                overall: text("overall"),
                photos: photos.collect(),
                typist: text("typist"),
                started: marking.started,
                replaces: marking.replaces,
                seal: Some(seal),
                signature: None,
                erased: None,
                agreement,
            },
            piece: Piece {
                id: piece.id,
                stamp: stamp.clone(),
                learner: piece.learner,
                ticket: piece.ticket,
                hidden_until_sealed: false,
                sitting: sitting.id,
                rubric: rubric.digest.clone(),
                attempt: piece.attempt,
                ended: piece.ended,
                feedback: None,
            },
            sitting: Sitting {
                id: sitting.id,
                stamp: stamp.clone(),
                kind: sitting.kind,
                day: sitting.day,
                name: String::new(),
                released: None,
            },
            rubric: RubricVersion {
                digest: rubric.digest,
                stamp,
                rubric_id: rubric.id,
                version: rubric.version,
                title: rubric.title,
                text: rubric.text,
            },
        }
    }
}
