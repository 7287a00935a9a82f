use std::collections::BTreeMap;

use serde::Deserialize;
use serde::de::IgnoredAny;
use serde_json::error::Category;
use serde_json::value::RawValue;
use serde_json::{Error, Value};

use super::lines::{
    RawPicture, RawRecord, Whole, canonical_line, head_line, picture_line, raw_line, sum,
};
use super::{Bundle, BundleError, FORMAT, OLDEST, SCHEMA};
use crate::quantity::Moment;
use crate::records::picture::PictureBytes;
use crate::records::record::{Record, RecordKey};
use crate::records::wire::WireError;

/// How far into a text a ledger file has said what it is.
const SAID_BY: usize = 200;

/// A picture of a file; `None` where its bytes are not those of its digest.
type ReadPicture = Option<(String, PictureBytes)>;

/// What a file says of itself, whatever else is in it.
#[derive(Deserialize)]
struct Which {
    format: Option<String>,
    schema: Option<u64>,
    /// What other files of this program call themselves.
    file: Option<String>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct File<'a> {
    #[serde(rename = "format")]
    _format: String,
    schema: u32,
    written: Moment,
    device: String,
    count: u64,
    sha256: String,
    #[serde(borrow)]
    records: Vec<&'a RawValue>,
    unreadable: Vec<RawRecord>,
    #[serde(default)]
    pictures: Vec<RawPicture>,
    sums: Vec<String>,
}

pub(super) fn read(bytes: &[u8]) -> Result<Bundle, BundleError> {
    match read_altered(bytes)? {
        (bundle, None) => Ok(bundle),
        (_, Some(altered)) => Err(altered),
    }
}

pub(super) fn read_altered(bytes: &[u8]) -> Result<(Bundle, Option<BundleError>), BundleError> {
    let text = text_of(bytes)?;
    if text.trim().is_empty() {
        return Err(BundleError::Empty);
    }
    refuse_others(text)?;
    let file: File<'_> = serde_json::from_str(text).map_err(|error| damaged(&error))?;
    let pictures: Vec<_> = file.pictures.iter().map(RawPicture::read).collect();
    let altered = match refuse_altered(&file, &pictures) {
        Ok(()) => None,
        Err(altered @ BundleError::Altered { .. }) => Some(altered),
        Err(other) => return Err(other),
    };
    match records_of(file, pictures) {
        Ok(bundle) => Ok((bundle, altered)),
        // That it was altered says more than what came of it.
        Err(other) => Err(altered.unwrap_or(other)),
    }
}

fn records_of(file: File<'_>, pictures: Vec<ReadPicture>) -> Result<Bundle, BundleError> {
    let mut records = Records::default();
    for (number, raw) in (1..).zip(&file.records) {
        let record = Record::read(raw.get()).map_err(|why| record_error(number, why))?;
        records.add(number, record)?;
    }
    let mut unreadable = Vec::new();
    for raw in file.unreadable {
        match Record::read_at(&raw.key, &raw.text) {
            // This program knows more than the one that wrote the file.
            Ok(record) if !records.have(&record) => {
                records.add(records.all.len() + 1, record)?;
            }
            Ok(_) => {}
            Err(_) => unreadable.push(raw),
        }
    }
    let bundle = Bundle {
        written: file.written,
        device: file.device,
        records: records.all,
        unreadable,
        pictures: BTreeMap::new(),
    };
    Ok(bundle.with_pictures(pictures.into_iter().flatten()))
}

fn text_of(bytes: &[u8]) -> Result<&str, BundleError> {
    let text = match std::str::from_utf8(bytes) {
        Ok(text) => text,
        Err(error) => {
            let good = bytes.get(..error.valid_up_to()).unwrap_or_default();
            let good = std::str::from_utf8(good).unwrap_or_default();
            return Err(if !is_ours(good) {
                foreign("it is not text")
            } else if error.error_len().is_none() {
                cut_short(good)
            } else {
                BundleError::Damaged {
                    line: good.matches('\n').count() + 1,
                    why: "there is something that is not text".to_owned(),
                }
            });
        }
    };
    // Some programs put a mark before text when they save it.
    Ok(text.strip_prefix('\u{feff}').unwrap_or(text))
}

/// Whether a text that may be broken began as a ledger file.
fn is_ours(text: &str) -> bool {
    text.find(&format!("\"{FORMAT}\""))
        .is_some_and(|at| at < SAID_BY)
}

fn refuse_others(text: &str) -> Result<(), BundleError> {
    let which: Which = serde_json::from_str(text).map_err(|error| {
        if !is_ours(text) {
            foreign("it is not written as one")
        } else if error.classify() == Category::Eof || text.ends_with('-') {
            // A sign that waits for its digits is an end too soon as well.
            cut_short(text)
        } else {
            damaged(&error)
        }
    })?;
    if which.format.as_deref() != Some(FORMAT) {
        return Err(match (which.format, which.file) {
            (Some(name), _) => foreign(&format!("it calls itself `{}`", short(&name))),
            (None, Some(name)) => foreign(&format!("it is an `{}`", short(&name))),
            (None, None) => foreign("it does not say that it is one"),
        });
    }
    match which.schema {
        Some(schema) if (u64::from(OLDEST)..=u64::from(SCHEMA)).contains(&schema) => Ok(()),
        Some(schema) if schema > u64::from(SCHEMA) => Err(BundleError::Newer {
            what: format!("its layout is number {schema}, and this version reads {SCHEMA}"),
        }),
        _ => Err(foreign("it does not say which layout it has")),
    }
}

/// Compares what the file holds with what it says that it holds.
fn refuse_altered(file: &File<'_>, pictures: &[ReadPicture]) -> Result<(), BundleError> {
    let altered = |what: String| Err(BundleError::Altered { what });
    let held = file.records.len();
    if file.count != held as u64 || file.sums.len() != held {
        return altered(format!(
            "it says that it holds {} records, and there are {held}",
            file.count
        ));
    }
    let mut whole = Whole::default();
    whole.take(&head_line(
        file.schema,
        file.written,
        &file.device,
        file.count,
    )?);
    for (number, (raw, said)) in (1..).zip(file.records.iter().zip(&file.sums)) {
        // As this program wrote it, or laid out anew since.
        if sum(raw.get()) == *said {
            whole.take(raw.get());
            continue;
        }
        match canonical_line(raw.get()) {
            Ok(line) if sum(&line) == *said => whole.take(&line),
            _ => return altered(format!("record {number}{} has changed", named(raw.get()))),
        }
    }
    for raw in &file.unreadable {
        whole.take(&raw_line(raw)?);
    }
    for (number, (raw, read)) in (1..).zip(file.pictures.iter().zip(pictures)) {
        whole.take(&picture_line(raw)?);
        if read.is_none() {
            return altered(format!(
                "the bytes of picture {number} ({}) are not those of its digest",
                short(&raw.sha256)
            ));
        }
    }
    if whole.digest() != file.sha256 {
        return altered("it does not have the digest that it states".to_owned());
    }
    Ok(())
}

/// The key of an altered record, where it still says so.
fn named(text: &str) -> String {
    let record: Value = serde_json::from_str(text).unwrap_or_default();
    let word = |name: &str| record.get(name).and_then(Value::as_str).map(short);
    match (word("kind"), word("id")) {
        (Some(kind), Some(id)) => format!(" ({kind}/{id})"),
        _ => String::new(),
    }
}

/// Records by key, with the place of each in the file.
#[derive(Default)]
struct Records {
    all: Vec<Record>,
    places: BTreeMap<RecordKey, usize>,
}

impl Records {
    fn add(&mut self, number: usize, record: Record) -> Result<(), BundleError> {
        let key = record.key();
        if let Some(first) = self.places.insert(key.clone(), number) {
            return Err(BundleError::Twice {
                key,
                first,
                second: number,
            });
        }
        self.all.push(record);
        Ok(())
    }

    fn have(&self, record: &Record) -> bool {
        self.places.contains_key(&record.key())
    }
}

fn record_error(number: usize, why: WireError) -> BundleError {
    match why {
        WireError::Newer { kind, schema, .. } => BundleError::Newer {
            what: format!("record {number} is a {kind} of schema {schema}"),
        },
        WireError::UnknownKind { kind } => BundleError::Newer {
            what: format!("record {number} is of the kind `{}`", short(&kind)),
        },
        WireError::Fields { kind, why } => BundleError::Record {
            number,
            why: format!("{kind}: {why}"),
        },
        WireError::NotARecord { why } => BundleError::Record { number, why },
        other => BundleError::Record {
            number,
            why: other.to_string(),
        },
    }
}

fn foreign(why: &str) -> BundleError {
    BundleError::Foreign {
        why: why.to_owned(),
    }
}

fn damaged(error: &Error) -> BundleError {
    let told = error.to_string();
    // The line is told apart.
    let why = told.split(" at line ").next().unwrap_or_default();
    BundleError::Damaged {
        line: error.line(),
        why: why.to_owned(),
    }
}

/// Counts the records whose lines are whole.
fn cut_short(text: &str) -> BundleError {
    // The first line names the count; it is whole where the next one has begun.
    let first = text
        .split_once(",\n")
        .map(|(first, _)| format!("{first}}}"));
    let head: Option<Value> = first.and_then(|first| serde_json::from_str(&first).ok());
    let count = head.and_then(|head| head.get("count")?.as_u64());
    let lines = text.lines();
    let whole = lines
        .skip_while(|line| !line.starts_with("\"records\":["))
        .skip(1)
        .take_while(|line| {
            let record = line.trim_end_matches(',');
            record.starts_with('{') && serde_json::from_str::<IgnoredAny>(record).is_ok()
        })
        .count() as u64;
    let there = match count {
        Some(count) if whole <= count => format!("{whole} of {count} records are there"),
        _ => "it stops in the middle".to_owned(),
    };
    BundleError::CutShort { there }
}

/// A text from a file, cut so that a message stays one.
fn short(text: &str) -> String {
    const MOST: usize = 60;
    let mut cut: String = text.chars().take(MOST).collect();
    if cut.len() < text.len() {
        cut.push('…');
    }
    cut
}
