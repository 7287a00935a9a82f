//! A sealed marking as a file that anyone can verify.
//!
//! The file is JSON: `document` is the sealed document, `sha256` its digest,
//! `personal` the texts that the document holds only as salted digests, where they
//! are still there. Whoever verifies it writes `document` as RFC 8785 has it, takes
//! SHA-256 of the UTF-8 bytes and compares; then, for each text, takes SHA-256 of the
//! salt as written followed by the text. [`read`] does both. The file as a whole is
//! canonical too, so `document` stands in it byte for byte as it was hashed.
//!
//! `signature`, where a device has signed, is over `sha256` as its 64 letters in UTF-8;
//! `erased` says when comments were erased. The digest covers neither.

mod error;
mod read;

use std::borrow::Cow;
use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};
use serde_json::{Value, json};

use crate::records::{
    Moment, Salted, SealError, SealParts, Signature, canonical_json, personal_texts,
    sealed_document, verify,
};

pub use error::JsonError;
pub use read::{SealedFile, read};

/// What the file calls itself.
const FILE: &str = "evenshod sealed marking file";
/// The layout that is written. The second may have `signature` and `erased`.
const SCHEMA: u64 = 2;
const HOW: &str = "sha256 is SHA-256 over document as RFC 8785 writes it, in UTF-8; each personal \
    digest is SHA-256 over salt and then text, in UTF-8; signature.value is ECDSA P-256 with SHA-256 \
    (r and s of 32 bytes each, base64) over the letters of sha256, by the key signature.public_key \
    (SubjectPublicKeyInfo, base64)";

#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Personal {
    salt: String,
    digest: String,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    text: Option<String>,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct File {
    #[serde(rename = "file")]
    _file: String,
    schema: u64,
    #[serde(rename = "how_to_verify")]
    _how: String,
    sha256: String,
    document: Value,
    personal: BTreeMap<String, Personal>,
    #[serde(default)]
    signature: Option<Signature>,
    #[serde(default)]
    erased: Option<Moment>,
}

/// The file of a sealed marking.
///
/// *Errors:* [`JsonError::Seal`] for a draft, for records that no longer give the
/// sealed digest, and where no canonical JSON can be written.
pub fn write(parts: SealParts<'_>) -> Result<String, JsonError> {
    let seal = parts.marking.seal.as_ref().ok_or(SealError::NotSealed)?;
    let sealed = sealed_document(parts)?;
    verify(&sealed.canonical, &seal.digest)?;
    let document: Value =
        serde_json::from_str(&sealed.canonical).map_err(|error| SealError::NotCanonical {
            why: error.to_string(),
        })?;
    let mut texts = personal_texts(parts);
    let personal: BTreeMap<&String, Personal> = seal
        .personal
        .iter()
        .map(|(label, salted)| {
            let text = texts.remove(label).filter(|text| salted.is_of(text));
            let Salted { salt, digest } = salted.clone();
            let text = text.map(Cow::into_owned);
            (label, Personal { salt, digest, text })
        })
        .collect();
    let mut file = json!({
        "file": FILE,
        "schema": SCHEMA,
        "how_to_verify": HOW,
        "sha256": seal.digest,
        "document": document,
        "personal": personal,
    });
    if let Some(map) = file.as_object_mut() {
        let signature = parts.marking.signature.as_ref();
        map.extend(signature.map(|signature| ("signature".to_owned(), json!(signature))));
        let erased = parts.marking.erased;
        map.extend(erased.map(|at| ("erased".to_owned(), json!(at))));
    }
    Ok(canonical_json(&file)?)
}
