use std::borrow::Cow;
use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};
use serde_json::{Value, json};
use sha2::{Digest as _, Sha256};
use thiserror::Error;

use super::ids::ExaminerId;
use super::marking::Marking;
use super::people::{Examiner, Learner, Sitting};
use super::piece::{Piece, RubricVersion};
use crate::quantity::Moment;

/// What the document under a seal calls itself.
pub(super) const DOCUMENT: &str = "evenshod sealed marking";
/// Its layout.
pub(super) const DOCUMENT_SCHEMA: u64 = 1;

/// Why something is not sealed or does not stand up.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum SealError {
    /// There is no seal to check.
    #[error("this marking is a draft; seal it first")]
    NotSealed,
    /// The document cannot be written canonically.
    #[error("this marking cannot be written as canonical JSON: {why}")]
    NotCanonical {
        /// What the writer or reader said.
        why: String,
    },
    /// A document that tells of no sealed marking.
    #[error("this is no sealed document of this program: {why}")]
    Unread {
        /// What the reader said.
        why: String,
    },
    /// The text is not the sealed one.
    #[error("the text's SHA-256 is {found}, and the seal says {sealed}: one of them was changed")]
    Differs {
        /// Digest of the text at hand.
        found: String,
        /// Digest that the seal states.
        sealed: String,
    },
}

/// A personal text's digest and the salt that went into it. Both stay when the
/// text is erased, and neither gives the text away.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Salted {
    /// 128 random bits as lower-case hex.
    pub salt: String,
    /// SHA-256 of the salt as written here and then the text, as lower-case hex.
    pub digest: String,
}

impl Salted {
    fn new(salt: &str, text: &str) -> Self {
        // The salt enters as its hex text: a fixed 32 bytes, so no salt and text
        // run into one another.
        Self {
            salt: salt.to_owned(),
            digest: sha256_hex(&[salt.as_bytes(), text.as_bytes()].concat()),
        }
    }

    /// Whether this is the digest of `text`.
    pub fn is_of(&self, text: &str) -> bool {
        *self == Self::new(&self.salt, text)
    }
}

/// What fixes a marking.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Seal {
    /// SHA-256 of the sealed document, as lower-case hex.
    pub digest: String,
    /// When it was sealed.
    pub at: Moment,
    /// Who sealed it.
    pub by: ExaminerId,
    /// Digests of the personal texts: `learner`, `examiner`, `overall`, `typist`,
    /// `comment/` with the entry's id, and `photo/` with its place from 001, whose text is
    /// the picture's digest, a space and the note.
    pub personal: BTreeMap<String, Salted>,
}

/// The records that one seal covers.
#[derive(Debug, Clone, Copy)]
pub struct SealParts<'a> {
    /// The marking.
    pub marking: &'a Marking,
    /// What was marked.
    pub piece: &'a Piece,
    /// On what occasion.
    pub sitting: &'a Sitting,
    /// By what.
    pub rubric: &'a RubricVersion,
    /// By whom.
    pub examiner: &'a Examiner,
    /// Who made it, where that is known and not erased.
    pub learner: Option<&'a Learner>,
}

/// The text that a seal is the digest of.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SealedDocument {
    /// Canonical JSON (RFC 8785).
    pub canonical: String,
    /// SHA-256 of its bytes, as lower-case hex.
    pub digest: String,
}

/// What became of a personal text since it was sealed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PersonalText {
    /// As sealed.
    Same,
    /// Another text stands there now.
    Changed,
    /// It is no longer there; the marks stand without it.
    Erased,
    /// It was not there when the marking was sealed.
    Added,
}

/// What checking a sealed marking found.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SealCheck {
    /// Facts, rubric, occasion and digests are those that were sealed.
    pub intact: bool,
    /// Each personal text by its label.
    pub personal: BTreeMap<String, PersonalText>,
}

/// The seal of `parts`, whose personal texts take their salts from `seed`.
///
/// Each salt is the first 128 bits of SHA-256 over the seed and the text's
/// label, so salts are as random as the seed and unlike one another. The seed is
/// not kept. *Errors:* [`SealError::NotCanonical`].
pub fn seal(parts: SealParts<'_>, seed: &[u8; 32], at: Moment) -> Result<Seal, SealError> {
    let personal = personal_texts(parts).into_iter().map(|(label, text)| {
        let mut salt = sha256_hex(&[seed.as_slice(), label.as_bytes()].concat());
        salt.truncate(32);
        (label, Salted::new(&salt, &text))
    });
    let mut seal = Seal {
        digest: String::new(),
        at,
        by: parts.marking.examiner,
        personal: personal.collect(),
    };
    seal.digest = document(parts, &seal)?.digest;
    Ok(seal)
}

/// The document that the marking's seal covers, written anew from the records.
///
/// *Errors:* [`SealError::NotSealed`], [`SealError::NotCanonical`].
pub fn sealed_document(parts: SealParts<'_>) -> Result<SealedDocument, SealError> {
    let seal = parts.marking.seal.as_ref().ok_or(SealError::NotSealed)?;
    document(parts, seal)
}

/// Checks a sealed marking against its records.
///
/// *Errors:* [`SealError::NotSealed`], [`SealError::NotCanonical`].
pub fn check_seal(parts: SealParts<'_>) -> Result<SealCheck, SealError> {
    let seal = parts.marking.seal.as_ref().ok_or(SealError::NotSealed)?;
    let intact = document(parts, seal)?.digest == seal.digest;
    let texts = personal_texts(parts);
    let mut personal: BTreeMap<_, _> = texts
        .keys()
        .map(|label| (label.clone(), PersonalText::Added))
        .collect();
    for (label, salted) in &seal.personal {
        let found = match texts.get(label) {
            None => PersonalText::Erased,
            Some(text) if salted.is_of(text) => PersonalText::Same,
            Some(_) => PersonalText::Changed,
        };
        personal.insert(label.clone(), found);
    }
    Ok(SealCheck { intact, personal })
}

/// Checks a sealed document's text against the digest that a seal states.
///
/// *Errors:* [`SealError::NotCanonical`] for a text that is not canonical JSON,
/// [`SealError::Differs`] where the digests do.
pub fn verify(canonical: &str, sealed: &str) -> Result<(), SealError> {
    let refused = |error: serde_json::Error| SealError::NotCanonical {
        why: error.to_string(),
    };
    let value: Value = serde_json::from_str(canonical).map_err(refused)?;
    if canonical_json(&value)? != canonical {
        return Err(SealError::NotCanonical {
            why: "keys, spaces or escapes are not as RFC 8785 writes them".to_owned(),
        });
    }
    let found = sha256_hex(canonical.as_bytes());
    if found == sealed {
        Ok(())
    } else {
        Err(SealError::Differs {
            found,
            sealed: sealed.to_owned(),
        })
    }
}

/// `value` as RFC 8785 writes it.
///
/// *Errors:* [`SealError::NotCanonical`].
pub fn canonical_json(value: &Value) -> Result<String, SealError> {
    serde_json_canonicalizer::to_string(value).map_err(|error| SealError::NotCanonical {
        why: error.to_string(),
    })
}

/// SHA-256 (FIPS 180-4) as lower-case hex.
pub fn sha256_hex(bytes: &[u8]) -> String {
    hex(&Sha256::digest(bytes))
}

/// A digest in groups of eight letters, as people compare it.
pub fn in_groups(digest: &str) -> Vec<String> {
    let letters: Vec<char> = digest.chars().collect();
    let groups = letters.chunks(8).map(|group| group.iter().collect());
    groups.collect()
}

pub(super) fn hex(bytes: &[u8]) -> String {
    bytes.iter().map(|byte| format!("{byte:02x}")).collect()
}

/// The personal texts that stand in these records, by the labels of
/// [`Seal::personal`].
pub fn personal_texts(parts: SealParts<'_>) -> BTreeMap<String, Cow<'_, str>> {
    let comments = parts.marking.comments.iter();
    let mut texts: BTreeMap<_, _> = comments
        .map(|(entry, text)| (format!("comment/{entry}"), text.into()))
        .collect();
    if parts.examiner.erased.is_none() {
        texts.insert("examiner".to_owned(), (&parts.examiner.name).into());
    }
    if let Some(learner) = parts.learner.filter(|learner| learner.erased.is_none()) {
        texts.insert("learner".to_owned(), (&learner.name).into());
    }
    if let Some(overall) = &parts.marking.overall {
        texts.insert("overall".to_owned(), overall.into());
    }
    if let Some(typist) = &parts.marking.typist {
        texts.insert("typist".to_owned(), typist.into());
    }
    let photos = (1..).zip(&parts.marking.photos);
    texts.extend(photos.map(|(place, photo)| (photo_label(place), photo.sealed_text().into())));
    texts
}

/// What a seal calls the photo at a place, from 1; the labels sort as the photos stand.
fn photo_label(place: usize) -> String {
    format!("photo/{place:03}")
}

fn document(parts: SealParts<'_>, seal: &Seal) -> Result<SealedDocument, SealError> {
    let SealParts {
        marking,
        piece,
        sitting,
        rubric,
        ..
    } = parts;
    let personal: BTreeMap<_, _> = seal
        .personal
        .iter()
        .map(|(label, salted)| (label, &salted.digest))
        .collect();
    // A learner linked to a ticket after sealing must not unsettle the seal.
    let learner = piece
        .learner
        .filter(|_| seal.personal.contains_key("learner"));
    let mut document = json!({
        "document": DOCUMENT,
        "schema": DOCUMENT_SCHEMA,
        "marking": {
            "id": marking.id,
            "role": marking.role,
            "examiner": marking.examiner,
            "order": marking.order,
            "unit": marking.unit,
            "started": marking.started,
            "replaces": marking.replaces,
            "sealed": seal.at,
            "sealed_by": seal.by,
        },
        "piece": {
            "id": piece.id,
            "learner": learner,
            "ticket": piece.ticket,
            "attempt": piece.attempt,
            "ended": piece.ended,
        },
        "sitting": {
            "id": sitting.id,
            "kind": sitting.kind,
            "day": sitting.day,
        },
        "rubric": {
            "digest": rubric.digest,
            "id": rubric.rubric_id,
            "version": rubric.version,
            "title": rubric.title,
            "text": rubric.text,
        },
        "facts": marking.facts,
        "personal": personal,
    });
    // Only where there is one, so that seals of before stay as they are.
    if let (Some(agreement), Some(map)) = (&marking.agreement, document.as_object_mut()) {
        map.insert("agreement".to_owned(), json!(agreement));
    }
    let canonical = canonical_json(&document)?;
    Ok(SealedDocument {
        digest: sha256_hex(canonical.as_bytes()),
        canonical,
    })
}
