use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use serde::{Deserialize, Serialize};
use serde_json::{Value, json};
use sha2::{Digest as _, Sha256};

use super::{Bundle, BundleError, FORMAT, SCHEMA};
use crate::quantity::Moment;
use crate::records::picture::PictureBytes;
use crate::records::record::Record;
use crate::records::seal::{canonical_json, hex, sha256_hex};

/// Digits of a record's sum: enough to tell which record was altered, while the
/// digest of the whole tells that one was.
const SUM_DIGITS: usize = 8;

/// A stored text that could not be read, as it stands under its key.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RawRecord {
    /// The key that it is stored under.
    pub key: String,
    /// The text.
    pub text: String,
}

/// The bytes of a picture as a file has them.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct RawPicture {
    /// Their digest, as lower-case hex.
    pub(super) sha256: String,
    /// They themselves, base64 (RFC 4648).
    pub(super) data: String,
}

impl RawPicture {
    fn of(digest: &str, bytes: &[u8]) -> Self {
        Self {
            sha256: digest.to_owned(),
            data: STANDARD.encode(bytes),
        }
    }

    /// Digest and bytes, where they are those of the digest.
    pub(super) fn read(&self) -> Option<(String, PictureBytes)> {
        let bytes = STANDARD.decode(&self.data).ok()?;
        (sha256_hex(&bytes) == self.sha256).then(|| (self.sha256.clone(), bytes.into()))
    }
}

/// The digest of the whole, as lines come.
#[derive(Debug, Default)]
pub(super) struct Whole(Sha256);

impl Whole {
    pub(super) fn take(&mut self, line: &str) {
        self.0.update(line.as_bytes());
        self.0.update(b"\n");
    }

    pub(super) fn digest(self) -> String {
        hex(&self.0.finalize())
    }
}

/// The first digits of a line's digest.
pub(super) fn sum(line: &str) -> String {
    let mut digest = sha256_hex(line.as_bytes());
    digest.truncate(SUM_DIGITS);
    digest
}

/// What the file says of itself, as a line.
pub(super) fn head_line(
    schema: u32,
    written: Moment,
    device: &str,
    count: u64,
) -> Result<String, BundleError> {
    canonical(&json!({
        "format": FORMAT,
        "schema": schema,
        "written": written,
        "device": device,
        "count": count,
    }))
}

/// A JSON text as RFC 8785 writes it.
pub(super) fn canonical_line(text: &str) -> Result<String, String> {
    let value: Value = serde_json::from_str(text).map_err(|error| error.to_string())?;
    canonical_json(&value).map_err(|error| error.to_string())
}

fn canonical(value: &Value) -> Result<String, BundleError> {
    canonical_json(value).map_err(|error| unwritten(&error))
}

fn unwritten(error: &dyn std::fmt::Display) -> BundleError {
    BundleError::Write {
        why: error.to_string(),
    }
}

fn record_line(record: &Record) -> Result<String, BundleError> {
    let text = record.write().map_err(|error| unwritten(&error))?;
    canonical_line(&text).map_err(|why| unwritten(&why))
}

pub(super) fn raw_line(raw: &RawRecord) -> Result<String, BundleError> {
    canonical(&json!({ "key": raw.key, "text": raw.text }))
}

pub(super) fn picture_line(picture: &RawPicture) -> Result<String, BundleError> {
    canonical(&json!({ "sha256": picture.sha256, "data": picture.data }))
}

pub(super) fn write(bundle: &Bundle) -> Result<String, BundleError> {
    let records = bundle.records.iter().map(record_line);
    let records: Vec<String> = records.collect::<Result<_, _>>()?;
    let unreadable = bundle.unreadable.iter().map(raw_line);
    let unreadable: Vec<String> = unreadable.collect::<Result<_, _>>()?;
    let pictures = bundle.pictures.iter();
    let pictures = pictures.map(|(digest, bytes)| picture_line(&RawPicture::of(digest, bytes)));
    let pictures: Vec<String> = pictures.collect::<Result<_, _>>()?;
    let count = records.len() as u64;
    let head = head_line(SCHEMA, bundle.written, &bundle.device, count)?;

    let mut whole = Whole::default();
    whole.take(&head);
    let lines = records.iter().chain(&unreadable).chain(&pictures);
    lines.for_each(|line| whole.take(line));
    let sums: Vec<String> = records.iter().map(|line| sum(line)).collect();

    // The head first, so that a file whose end is missing still says what it was.
    let device = json!(bundle.device);
    let written = json!(bundle.written);
    let mut text = format!(
        "{{\"format\":\"{FORMAT}\",\"schema\":{SCHEMA},\"written\":{written},\"device\":{device},\
         \"count\":{count},\n\"sha256\":\"{}\",\n\"records\":",
        whole.digest()
    );
    list(&mut text, &records);
    text.push_str(",\n\"unreadable\":");
    list(&mut text, &unreadable);
    text.push_str(",\n\"pictures\":");
    list(&mut text, &pictures);
    text.push_str(",\n\"sums\":");
    text.push_str(&json!(sums).to_string());
    text.push_str("}\n");
    Ok(text)
}

fn list(text: &mut String, lines: &[String]) {
    text.push('[');
    let mut before = "\n";
    for line in lines {
        text.push_str(before);
        text.push_str(line);
        before = ",\n";
    }
    text.push_str(if lines.is_empty() { "]" } else { "\n]" });
}
