use std::collections::BTreeSet;
use std::sync::Arc;

use serde::{Deserialize, Serialize};
use thiserror::Error;

use super::ledger::Ledger;
use super::marking::Marking;
use super::record::{Kind, RecordKey};
use super::seal::sha256_hex;
use super::stamp::Stamp;

/// Pictures of more bytes are refused: the page makes them smaller before it keeps them,
/// so that a ledger with hundreds of them stays one file.
pub const MOST_PICTURE_BYTES: usize = 2_000_000;

/// How a picture is written.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Media {
    /// JPEG (ISO/IEC 10918-1).
    Jpeg,
    /// PNG (ISO/IEC 15948).
    Png,
    /// WebP (RFC 9649).
    Webp,
}

impl Media {
    /// The media type, as IANA registers it.
    pub fn media_type(self) -> &'static str {
        match self {
            Self::Jpeg => "image/jpeg",
            Self::Png => "image/png",
            Self::Webp => "image/webp",
        }
    }

    /// Tells it by the first bytes, as the three standards fix them; `None` for all else.
    pub fn of(bytes: &[u8]) -> Option<Self> {
        if bytes.starts_with(&[0xff, 0xd8, 0xff]) {
            return Some(Self::Jpeg);
        }
        if bytes.starts_with(b"\x89PNG\r\n\x1a\n") {
            return Some(Self::Png);
        }
        let is_webp = bytes.starts_with(b"RIFF") && bytes.get(8..12) == Some(b"WEBP".as_slice());
        is_webp.then_some(Self::Webp)
    }
}

/// What is known of a picture. Its bytes stand beside the ledger, under the digest: they
/// never change, and no list or mark needs them.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Picture {
    /// SHA-256 of its bytes, as lower-case hex; what names it.
    #[serde(rename = "id")]
    pub digest: String,
    /// When and by whom it was kept.
    pub stamp: Stamp,
    /// How it is written.
    pub media: Media,
    /// How many bytes it has.
    pub size: u64,
}

/// Why a picture is not kept.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum PictureError {
    /// Not one of the three kinds.
    #[error("this is no JPEG, PNG or WebP picture; choose one, or save it as JPEG first")]
    Unknown,
    /// Too large.
    #[error(
        "the picture has {size} bytes, and at most {MOST_PICTURE_BYTES} are kept; make it smaller first"
    )]
    TooLarge {
        /// Its bytes.
        size: usize,
    },
}

impl Picture {
    /// What is known of these bytes.
    ///
    /// *Errors:* [`PictureError`].
    pub fn of(bytes: &[u8], stamp: Stamp) -> Result<Self, PictureError> {
        if bytes.len() > MOST_PICTURE_BYTES {
            return Err(PictureError::TooLarge { size: bytes.len() });
        }
        Ok(Self {
            media: Media::of(bytes).ok_or(PictureError::Unknown)?,
            digest: sha256_hex(bytes),
            stamp,
            size: bytes.len() as u64,
        })
    }

    /// Whether these are its bytes.
    pub fn is_of(&self, bytes: &[u8]) -> bool {
        self.digest == sha256_hex(bytes)
    }
}

/// The bytes of a picture on their way; cheap to clone.
pub type PictureBytes = Arc<[u8]>;

/// Digests of all that rubrics and markings name as pictures, whether they are here or not.
pub(super) fn named_pictures(ledger: &Ledger) -> BTreeSet<&str> {
    let rubrics = ledger.rubrics().map(|rubric| rubric.text.as_str());
    let drafts = ledger.rubric_drafts().map(|draft| draft.text.as_str());
    let texts = rubrics.chain(drafts).flat_map(digests_in);
    let markings = ledger.markings().flat_map(Marking::pictures);
    texts.chain(markings).collect()
}

/// The pictures that nothing in `ledger` names any more.
pub fn unused_pictures(ledger: &Ledger) -> Vec<&Picture> {
    let named = named_pictures(ledger);
    let pictures = ledger.pictures();
    let unused = pictures.filter(|picture| !named.contains(picture.digest.as_str()));
    unused.collect()
}

/// Keys of the pictures that something in `before` names and nothing in `after` does.
pub fn no_longer_named(before: &Ledger, after: &Ledger) -> Vec<RecordKey> {
    let named = named_pictures(before);
    let unused = unused_pictures(after).into_iter();
    unused
        .filter(|picture| named.contains(picture.digest.as_str()))
        .map(|picture| RecordKey::new(Kind::Picture, &picture.digest))
        .collect()
}

/// Every run of 64 lower-case hexadecimal digits in `text`: what may name a picture.
pub(crate) fn digests_in(text: &str) -> impl Iterator<Item = &str> {
    let other = |letter: char| !matches!(letter, '0'..='9' | 'a'..='f');
    text.split(other).filter(|run| run.len() == 64)
}
