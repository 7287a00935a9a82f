use std::collections::BTreeMap;

use serde::Deserialize;
use serde_json::error::Category;
use serde_json::{Error, Value};

use super::{FILE, File, JsonError, Personal, SCHEMA};
use crate::records::{PersonalText, Salted, SaltedText, SealedRecords, canonical_json, sha256_hex};

/// How far into a text such a file has said what it is: the document comes first in it,
/// and its name first in that.
const SAID_BY: usize = 200;
const SAYS: &str = "\"evenshod sealed marking\"";

/// A file of a sealed marking as it was read, with what checking it found.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SealedFile {
    /// What the document in it tells of, with signature and erasing beside it.
    pub records: SealedRecords,
    /// SHA-256 of the document in it, as lower-case hex.
    pub found: String,
    /// The digest that the file states.
    pub stated: String,
    /// Each personal text by its label. One that was taken out whole is erased.
    pub personal: BTreeMap<String, PersonalText>,
}

impl SealedFile {
    /// Whether the document has the digest that the file states.
    pub fn is_intact(&self) -> bool {
        self.found == self.stated
    }

    /// Whether the rubric's text has the digest that it is called by.
    pub fn has_its_rubric(&self) -> bool {
        let rubric = &self.records.rubric;
        sha256_hex(rubric.text.as_bytes()) == rubric.digest
    }
}

/// What a file says of itself, whatever else is in it.
#[derive(Deserialize)]
struct Which {
    file: Option<String>,
    schema: Option<u64>,
    /// What a ledger file calls itself.
    format: Option<String>,
}

/// Reads the file of a sealed marking and checks it by itself: one whose digest does not
/// fit is read too, and says so.
///
/// *Errors:* [`JsonError`]; no text panics.
pub fn read(text: &str) -> Result<SealedFile, JsonError> {
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    if text.trim().is_empty() {
        return Err(JsonError::Empty);
    }
    refuse_others(text)?;
    let file: File = serde_json::from_str(text).map_err(|error| JsonError::Fields {
        why: error.to_string(),
    })?;
    if file.schema < SCHEMA && (file.signature.is_some() || file.erased.is_some()) {
        return Err(JsonError::Fields {
            why: format!("schema {} has no `signature` and no `erased`", file.schema),
        });
    }
    let canonical = canonical_json(&file.document)?;
    let found = sha256_hex(canonical.as_bytes());
    let personal = checked_texts(&file.document, &file.personal);
    let texts = salted_texts(&file.document, file.personal);
    let records = SealedRecords::read(&canonical, &file.sha256, &texts);
    let mut records = records.map_err(|error| JsonError::Fields {
        why: error.to_string(),
    })?;
    records.marking.signature = file.signature;
    records.marking.erased = file.erased;
    Ok(SealedFile {
        records,
        found,
        stated: file.sha256,
        personal,
    })
}

fn broken(text: &str, error: &Error) -> JsonError {
    let is_ours = text.find(SAYS).is_some_and(|at| at < SAID_BY) || text.contains(FILE);
    let (line, column) = (error.line(), error.column());
    if !is_ours {
        JsonError::Foreign {
            why: "it is not written as one".to_owned(),
        }
    } else if error.classify() == Category::Eof {
        JsonError::CutShort { line, column }
    } else {
        let told = error.to_string();
        // The place is told apart.
        let why = told.split(" at line ").next().unwrap_or_default();
        JsonError::Damaged {
            line,
            column,
            why: why.to_owned(),
        }
    }
}

fn refuse_others(text: &str) -> Result<(), JsonError> {
    let foreign = |why: String| Err(JsonError::Foreign { why });
    let which: Which = match serde_json::from_str(text) {
        Ok(which) => which,
        Err(error) if error.classify() == Category::Data => {
            return foreign("it does not say that it is one".to_owned());
        }
        Err(error) => return Err(broken(text, &error)),
    };
    match (which.file, which.format) {
        (Some(file), _) if file == FILE => {}
        (Some(name), _) | (None, Some(name)) => {
            let short: String = name.chars().take(60).collect();
            return foreign(format!("it calls itself `{short}`"));
        }
        (None, None) => return foreign("it does not say that it is one".to_owned()),
    }
    match which.schema {
        Some(found) if found > SCHEMA => Err(JsonError::Newer {
            found,
            newest: SCHEMA,
        }),
        Some(1..) => Ok(()),
        _ => foreign("it does not say which layout it has".to_owned()),
    }
}

/// The digests of personal texts that the document holds.
fn sealed_digests(document: &Value) -> impl Iterator<Item = (&String, Option<&str>)> {
    let sealed = document.get("personal").and_then(Value::as_object);
    let sealed = sealed.into_iter().flatten();
    sealed.map(|(label, digest)| (label, digest.as_str()))
}

/// What became of each text.
fn checked_texts(
    document: &Value,
    personal: &BTreeMap<String, Personal>,
) -> BTreeMap<String, PersonalText> {
    let sealed: BTreeMap<&String, Option<&str>> = sealed_digests(document).collect();
    let mut found: BTreeMap<String, PersonalText> = sealed
        .keys()
        .map(|label| ((*label).clone(), PersonalText::Erased))
        .collect();
    found.extend(personal.iter().map(|(label, own)| {
        let Personal { salt, digest, text } = own;
        let is_sealed = sealed.get(label).copied().flatten() == Some(digest.as_str());
        let salted = Salted {
            salt: salt.clone(),
            digest: digest.clone(),
        };
        let found = match text {
            _ if !is_sealed && sealed.contains_key(label) => PersonalText::Changed,
            _ if !is_sealed => PersonalText::Added,
            None => PersonalText::Erased,
            Some(text) if salted.is_of(text) => PersonalText::Same,
            Some(_) => PersonalText::Changed,
        };
        (label.clone(), found)
    }));
    found
}

/// The texts of the file under the digests of the document, so that what was read writes
/// that document again.
fn salted_texts(
    document: &Value,
    mut personal: BTreeMap<String, Personal>,
) -> BTreeMap<String, SaltedText> {
    let texts = sealed_digests(document).map(|(label, digest)| {
        let own = personal.remove(label);
        let (salt, text) = own.map_or_else(Default::default, |own| (own.salt, own.text));
        let salted = Salted {
            salt,
            digest: digest.unwrap_or_default().to_owned(),
        };
        (label.clone(), SaltedText { salted, text })
    });
    texts.collect()
}
