use serde::de::DeserializeOwned;
use serde::{Deserialize, Serialize};
use serde_json::{Map, Value};
use thiserror::Error;

use super::columns::TableHead;
use super::instrument::OwnInstrument;
use super::marking::Marking;
use super::milestone::Milestone;
use super::people::{Examiner, Learner, Sitting};
use super::picture::Picture;
use super::piece::{Piece, RubricDraft, RubricVersion};
use super::record::{Kind, Record, RecordKey};
use super::skip::WithoutHead;
use super::study::Study;

/// Why a text is not read as a record. The text itself is kept as it is.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum WireError {
    /// Not JSON, or not an object with a kind and a schema.
    #[error("this is not a record: {why}; if you need what it held, enter it anew")]
    NotARecord {
        /// What the reader said.
        why: String,
    },
    /// A kind that this program does not know.
    #[error(
        "records of kind `{kind}` are unknown to this version; reload the page to get a newer one"
    )]
    UnknownKind {
        /// The kind as written.
        kind: String,
    },
    /// Written by a newer program.
    #[error(
        "this {kind} has schema {schema}, and this version reads up to {newest}; \
         reload the page to get a newer one"
    )]
    Newer {
        /// What the record is about.
        kind: Kind,
        /// The schema as written.
        schema: u32,
        /// The newest schema that is read.
        newest: u32,
    },
    /// Older than anything that is still read.
    #[error(
        "this {kind} has schema {schema}, from which no step leads to schema {newest}; if you need it, enter it anew"
    )]
    NoWay {
        /// What the record is about.
        kind: Kind,
        /// The schema as written.
        schema: u32,
        /// The schema that is wanted.
        newest: u32,
    },
    /// A step to a newer schema failed.
    #[error("this {kind} could not be brought from schema {schema} to the next: {why}")]
    Step {
        /// What the record is about.
        kind: Kind,
        /// The schema that the step starts from.
        schema: u32,
        /// What the step said.
        why: String,
    },
    /// A field is missing, unknown or out of its range.
    #[error("this {kind} cannot be read: {why}; if you need it, enter it anew")]
    Fields {
        /// What the record is about.
        kind: Kind,
        /// Which field and why.
        why: String,
    },
    /// The record stands under a key that is not its own.
    #[error("the record {own} is stored as {key}; if you need either, enter it anew")]
    Misplaced {
        /// The key that it is stored under.
        key: String,
        /// The key that is its own.
        own: RecordKey,
    },
    /// A record that cannot be written as text.
    #[error("this {kind} cannot be written: {why}")]
    Write {
        /// What the record is about.
        kind: Kind,
        /// What the writer said.
        why: String,
    },
}

/// One step from a schema to the next, on the untyped form.
#[derive(Debug, Clone, Copy)]
pub struct Step {
    /// Which records it changes.
    pub kind: Kind,
    /// The schema that it starts from; it leads to the next number.
    pub from: u32,
    /// The change; the number itself is set by the reader.
    pub change: fn(&mut Map<String, Value>) -> Result<(), String>,
}

/// Every step that this program knows. Schema 1 is the first of all kinds.
pub const STEPS: &[Step] = &[
    Step {
        kind: Kind::Learner,
        from: 1,
        change: learner_with_details,
    },
    Step {
        kind: Kind::Learner,
        from: 2,
        change: learner_with_erasing,
    },
    Step {
        kind: Kind::Examiner,
        from: 1,
        change: examiner_with_erasing,
    },
    Step {
        kind: Kind::Marking,
        from: 1,
        change: marking_since_first,
    },
    Step {
        kind: Kind::Marking,
        from: 2,
        change: marking_with_impression,
    },
    Step {
        kind: Kind::Marking,
        from: 3,
        change: marking_with_photos,
    },
    Step {
        kind: Kind::Marking,
        from: 4,
        change: marking_with_typist,
    },
    Step {
        kind: Kind::Marking,
        from: 5,
        change: marking_with_shapes,
    },
    Step {
        kind: Kind::Marking,
        from: 6,
        change: marking_with_stated,
    },
    Step {
        kind: Kind::Marking,
        from: 7,
        change: marking_with_outlines,
    },
    Step {
        kind: Kind::Marking,
        from: 8,
        change: marking_with_heat_log,
    },
    Step {
        kind: Kind::Marking,
        from: 9,
        change: marking_with_cut,
    },
    Step {
        kind: Kind::Instrument,
        from: 1,
        change: instrument_with_shape,
    },
    Step {
        kind: Kind::Sitting,
        from: 1,
        change: sitting_with_release,
    },
    Step {
        kind: Kind::Piece,
        from: 1,
        change: piece_with_feedback,
    },
];

/// Schema 2 of a learner has details; until then everybody was learning.
fn learner_with_details(map: &mut Map<String, Value>) -> Result<(), String> {
    const NEW: [&str; 6] = [
        "outside_numbers",
        "employer",
        "started",
        "planned_end",
        "status",
        "erased",
    ];
    refuse_newer(map, 1, &NEW)?;
    map.insert("status".to_owned(), "learning".into());
    Ok(())
}

/// Schema 3 of a learner may say when it was erased.
fn learner_with_erasing(map: &mut Map<String, Value>) -> Result<(), String> {
    refuse_newer(map, 2, &["erased"])
}

/// Schema 2 of an examiner may say when it was erased.
fn examiner_with_erasing(map: &mut Map<String, Value>) -> Result<(), String> {
    refuse_newer(map, 1, &["erased"])
}

/// Schema 2 of a marking may be signed, may have its personal text erased, may be a third
/// examiner's, may say what it is made from, and may have instruments in its facts.
fn marking_since_first(map: &mut Map<String, Value>) -> Result<(), String> {
    refuse_newer(map, 1, &["signature", "erased", "agreement"])?;
    if map.get("role").and_then(Value::as_str) == Some("third") {
        return Err("schema 1 has no role `third`".to_owned());
    }
    refuse_newer_facts(map, 1, &["instruments"])
}

/// Schema 3 of a marking may have a first impression in its facts.
fn marking_with_impression(map: &mut Map<String, Value>) -> Result<(), String> {
    refuse_newer_facts(map, 2, &["impression"])
}

/// Schema 4 of a marking may have photos.
fn marking_with_photos(map: &mut Map<String, Value>) -> Result<(), String> {
    refuse_newer(map, 3, &["photos"])
}

/// Schema 5 of a marking may say who typed it in.
fn marking_with_typist(map: &mut Map<String, Value>) -> Result<(), String> {
    refuse_newer(map, 4, &["typist"])
}

/// What schema 2 of an instrument may say of its half-width.
const SHAPE: [&str; 2] = ["shape", "level_share"];

/// Schema 6 of a marking may say the shape of an instrument's half-width.
fn marking_with_shapes(map: &mut Map<String, Value>) -> Result<(), String> {
    let facts = map.get("facts").and_then(Value::as_object);
    let instruments = facts.and_then(|facts| facts.get("instruments")?.as_object());
    let mut figures = instruments.into_iter().flatten();
    figures.try_for_each(|(_, fact)| refuse_newer_fact(fact, 5))
}

/// Schema 7 of a marking may say how sure a reading is by itself.
fn marking_with_stated(map: &mut Map<String, Value>) -> Result<(), String> {
    let facts = map.get("facts").and_then(Value::as_object);
    let readings = facts.and_then(|facts| facts.get("readings")?.as_object());
    let lists = readings.into_iter().flat_map(Map::values);
    let mut readings = lists.filter_map(Value::as_array).flatten();
    readings.try_for_each(|reading| {
        let reading = reading.as_object();
        reading.map_or(Ok(()), |reading| refuse_newer(reading, 6, &["stated"]))
    })
}

/// Schema 8 of a marking may hold the outlines of its shoes.
fn marking_with_outlines(map: &mut Map<String, Value>) -> Result<(), String> {
    refuse_newer_facts(map, 7, &["outlines"])
}

/// Schema 9 of a marking may hold what was tapped while its piece was made.
fn marking_with_heat_log(map: &mut Map<String, Value>) -> Result<(), String> {
    refuse_newer_facts(map, 8, &["heat_log"])
}

/// Schema 10 of a marking may say what the bar was cut to, and that taps were taken over from
/// another examiner's log.
fn marking_with_cut(map: &mut Map<String, Value>) -> Result<(), String> {
    refuse_newer_facts(map, 9, &["cut"])?;
    let facts = map.get("facts").and_then(Value::as_object);
    let log = facts.and_then(|facts| facts.get("heat_log")?.as_object());
    log.map_or(Ok(()), |log| refuse_newer(log, 9, &["taken_over"]))
}

/// Schema 2 of an instrument may say the shape of its half-width.
fn instrument_with_shape(map: &mut Map<String, Value>) -> Result<(), String> {
    map.get("fact")
        .map_or(Ok(()), |fact| refuse_newer_fact(fact, 1))
}

fn refuse_newer_fact(fact: &Value, schema: u32) -> Result<(), String> {
    let fact = fact.as_object();
    fact.map_or(Ok(()), |fact| refuse_newer(fact, schema, &SHAPE))
}

fn refuse_newer_facts(
    map: &Map<String, Value>,
    schema: u32,
    fields: &[&str],
) -> Result<(), String> {
    let facts = map.get("facts").and_then(Value::as_object);
    facts.map_or(Ok(()), |facts| refuse_newer(facts, schema, fields))
}

/// Schema 2 of a sitting says when its marks were released; until then nobody was asked,
/// and those of a mock or an exam wait for somebody.
fn sitting_with_release(map: &mut Map<String, Value>) -> Result<(), String> {
    refuse_newer(map, 1, &["released"])
}

/// Schema 2 of a piece says when feedback was given.
fn piece_with_feedback(map: &mut Map<String, Value>) -> Result<(), String> {
    refuse_newer(map, 1, &["feedback"])
}

fn refuse_newer(map: &Map<String, Value>, schema: u32, fields: &[&str]) -> Result<(), String> {
    match fields.iter().find(|field| map.contains_key(**field)) {
        Some(field) => Err(format!("schema {schema} has no `{field}`")),
        None => Ok(()),
    }
}

#[derive(Deserialize)]
struct Head {
    kind: String,
    schema: u32,
}

impl Record {
    /// The record as JSON text, `{"kind":…,"schema":…,"id":…,"stamp":…,…}`.
    ///
    /// *Errors:* [`WireError::Write`], which no record made by commands gives.
    pub fn write(&self) -> Result<String, WireError> {
        match self {
            Self::Learner(record) => write(self.kind(), &**record),
            Self::Examiner(record) => write(self.kind(), &**record),
            Self::Milestone(record) => write(self.kind(), &**record),
            Self::Sitting(record) => write(self.kind(), &**record),
            Self::Instrument(record) => write(self.kind(), &**record),
            Self::Study(record) => write(self.kind(), &**record),
            Self::TableHead(record) => write(self.kind(), &**record),
            Self::Picture(record) => write(self.kind(), &**record),
            Self::Rubric(record) => write(self.kind(), &**record),
            Self::RubricDraft(record) => write(self.kind(), &**record),
            Self::Piece(record) => write(self.kind(), &**record),
            Self::Marking(record) => write(self.kind(), &**record),
        }
    }

    /// Reads a record of the present or an older schema.
    ///
    /// *Errors:* [`WireError`]; newer schemas and unknown kinds are refused, and
    /// no text panics.
    pub fn read(text: &str) -> Result<Self, WireError> {
        Self::read_with(text, STEPS)
    }

    /// As [`Record::read`], with these steps from older schemas.
    pub fn read_with(text: &str, steps: &[Step]) -> Result<Self, WireError> {
        let head: Head = serde_json::from_str(text).map_err(|error| WireError::NotARecord {
            why: error.to_string(),
        })?;
        let Some(kind) = Kind::from_word(&head.kind) else {
            return Err(WireError::UnknownKind { kind: head.kind });
        };
        let newest = kind.schema();
        if head.schema > newest {
            return Err(WireError::Newer {
                kind,
                schema: head.schema,
                newest,
            });
        }
        if head.schema == newest {
            return read_typed(kind, text);
        }
        let value = migrate(text, kind, head.schema, steps)?;
        read_typed(kind, &value.to_string())
    }

    /// Reads the record that is stored under `key`.
    ///
    /// *Errors:* as [`Record::read`], and [`WireError::Misplaced`].
    pub fn read_at(key: &str, text: &str) -> Result<Self, WireError> {
        let record = Self::read(text)?;
        let own = record.key();
        if own.to_string() == key {
            Ok(record)
        } else {
            Err(WireError::Misplaced {
                key: key.to_owned(),
                own,
            })
        }
    }
}

fn write<T: Serialize>(kind: Kind, record: &T) -> Result<String, WireError> {
    let refused = |why: String| WireError::Write { kind, why };
    let json = serde_json::to_string(record).map_err(|error| refused(error.to_string()))?;
    let fields = json
        .strip_prefix('{')
        .ok_or_else(|| refused("it is not an object".to_owned()))?;
    Ok(format!(
        "{{\"kind\":\"{kind}\",\"schema\":{},{fields}",
        kind.schema()
    ))
}

fn migrate(text: &str, kind: Kind, from: u32, steps: &[Step]) -> Result<Value, WireError> {
    let mut map: Map<String, Value> =
        serde_json::from_str(text).map_err(|error| WireError::NotARecord {
            why: error.to_string(),
        })?;
    for schema in from..kind.schema() {
        let step = steps
            .iter()
            .find(|step| step.kind == kind && step.from == schema)
            .ok_or(WireError::NoWay {
                kind,
                schema,
                newest: kind.schema(),
            })?;
        (step.change)(&mut map).map_err(|why| WireError::Step { kind, schema, why })?;
    }
    Ok(Value::Object(map))
}

fn read_typed(kind: Kind, text: &str) -> Result<Record, WireError> {
    match kind {
        Kind::Learner => fields::<Learner>(text).map(Record::from),
        Kind::Examiner => fields::<Examiner>(text).map(Record::from),
        Kind::Milestone => fields::<Milestone>(text).map(Record::from),
        Kind::Sitting => fields::<Sitting>(text).map(Record::from),
        Kind::Instrument => fields::<OwnInstrument>(text).map(Record::from),
        Kind::Study => fields::<Study>(text).map(Record::from),
        Kind::TableHead => fields::<TableHead>(text).map(Record::from),
        Kind::Picture => fields::<Picture>(text).map(Record::from),
        Kind::Rubric => fields::<RubricVersion>(text).map(Record::from),
        Kind::RubricDraft => fields::<RubricDraft>(text).map(Record::from),
        Kind::Piece => fields::<Piece>(text).map(Record::from),
        Kind::Marking => fields::<Marking>(text).map(Record::from),
    }
    .map_err(|error| WireError::Fields {
        kind,
        why: error.to_string(),
    })
}

fn fields<T: DeserializeOwned>(text: &str) -> serde_json::Result<T> {
    let mut json = serde_json::Deserializer::from_str(text);
    let record = T::deserialize(WithoutHead(&mut json))?;
    json.end()?;
    Ok(record)
}
