//! A sealed marking as a file that anyone can verify.
//!
//! The file is JSON: `document` is the sealed document, `sha256` its digest,
//! `personal` the texts that the document holds only as salted digests, where they
//! are still there. Whoever verifies it writes `document` as RFC 8785 has it, takes
//! SHA-256 of the UTF-8 bytes and compares; then, for each text, takes SHA-256 of the
//! salt as written followed by the text. [`check`] does both. The file as a whole is
//! canonical too, so `document` stands in it byte for byte as it was hashed.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};
use serde_json::{Value, json};
use thiserror::Error;

use crate::records::{
    PersonalText, Salted, SealError, SealParts, canonical_json, sealed_document, verify,
};

/// What the file calls itself.
const FILE: &str = "evenshod sealed marking file";
const HOW: &str = "sha256 is SHA-256 over document as RFC 8785 writes it, in UTF-8; each personal \
    digest is SHA-256 over salt and then text, in UTF-8";

/// Why a file is not made or does not stand up.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum JsonError {
    /// It is no such file.
    #[error("this is no sealed marking of this program: {why}; choose the JSON file of a sheet")]
    Unreadable {
        /// What the reader said.
        why: String,
    },
    /// A newer program wrote it.
    #[error("this file has schema {found}, and this program reads 1; use a newer version")]
    Newer {
        /// The schema number in the file.
        found: u64,
    },
    /// The digest does not fit.
    #[error(transparent)]
    Seal(#[from] SealError),
}

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
    file: String,
    schema: u64,
    #[serde(rename = "how_to_verify")]
    _how: String,
    sha256: String,
    document: Value,
    personal: BTreeMap<String, Personal>,
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
        serde_json::from_str(&sealed.canonical).map_err(|error| unreadable(&error))?;
    let personal: BTreeMap<&String, Personal> = seal
        .personal
        .iter()
        .map(|(label, salted)| {
            let text = text_of(parts, label).filter(|text| salted.is_of(text));
            let Salted { salt, digest } = salted.clone();
            let text = text.map(str::to_owned);
            (label, Personal { salt, digest, text })
        })
        .collect();
    let file = json!({
        "file": FILE,
        "schema": 1,
        "how_to_verify": HOW,
        "sha256": seal.digest,
        "document": document,
        "personal": personal,
    });
    Ok(canonical_json(&file)?)
}

/// What checking a file found: each personal text by its label; one that was taken out
/// whole is erased. That the document has the digest is certain then.
///
/// *Errors:* [`JsonError`].
pub fn check(text: &str) -> Result<BTreeMap<String, PersonalText>, JsonError> {
    let value: Value = serde_json::from_str(text).map_err(|error| unreadable(&error))?;
    if let Some(found) = value.get("schema").and_then(Value::as_u64)
        && found > 1
    {
        return Err(JsonError::Newer { found });
    }
    let file: File = serde_json::from_value(value).map_err(|error| unreadable(&error))?;
    if file.file != FILE || file.schema != 1 {
        return Err(JsonError::Unreadable {
            why: format!("it calls itself `{}`", file.file),
        });
    }
    verify(&canonical_json(&file.document)?, &file.sha256)?;
    let sealed = file.document.get("personal").cloned().unwrap_or_default();
    let labels = sealed
        .as_object()
        .into_iter()
        .flat_map(|sealed| sealed.keys());
    let mut found: BTreeMap<String, PersonalText> = labels
        .map(|label| (label.clone(), PersonalText::Erased))
        .collect();
    found.extend(file.personal.into_iter().map(|(label, personal)| {
        let Personal { salt, digest, text } = personal;
        let is_sealed = sealed.get(&label).and_then(Value::as_str) == Some(digest.as_str());
        let salted = Salted { salt, digest };
        let found = match text {
            _ if !is_sealed => PersonalText::Added,
            None => PersonalText::Erased,
            Some(text) if salted.is_of(&text) => PersonalText::Same,
            Some(_) => PersonalText::Changed,
        };
        (label, found)
    }));
    Ok(found)
}

fn text_of<'a>(parts: SealParts<'a>, label: &str) -> Option<&'a str> {
    match label {
        "learner" => parts.learner.map(|learner| learner.name.as_str()),
        "examiner" => Some(parts.examiner.name.as_str()),
        "overall" => parts.marking.overall.as_deref(),
        label => {
            let entry = label.strip_prefix("comment/")?;
            parts.marking.comments.get(entry).map(String::as_str)
        }
    }
}

fn unreadable(error: &serde_json::Error) -> JsonError {
    JsonError::Unreadable {
        why: error.to_string(),
    }
}
