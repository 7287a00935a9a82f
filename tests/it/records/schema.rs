//! The published schema of ledger files, held against what is written and read by a
//! validator that is not ours.

use std::sync::LazyLock;

use evenshod::command::Command;
use evenshod::records::{Bundle, Kind, Ledger, Record};
use jsonschema::Validator;
use serde_json::{Map, Value, json};

use super::sample::{after, bundle, full_bundle, full_ledger, jpeg, now, picture, stamp};

static SCHEMA: LazyLock<Value> = LazyLock::new(|| {
    serde_json::from_str(include_str!("../../../examples/ledger.schema.json")).unwrap()
});

static VALIDATOR: LazyLock<Validator> =
    LazyLock::new(|| jsonschema::draft202012::new(&SCHEMA).unwrap());

/// Every kind of record, with all that may be left out, and a text that nobody can read.
fn full() -> Value {
    let text = "title = \"Half a rubric".to_owned();
    let (ledger, _) = after(&full_ledger(), Command::DraftRubric { text }, &stamp(60));
    let unreadable = full_bundle().unreadable().to_vec();
    let bundle = Bundle::of(&ledger, unreadable, "bench tablet", now());
    let bundle = bundle.with_pictures([picture(&jpeg(1))]);
    serde_json::from_str(&bundle.write().unwrap()).unwrap()
}

fn faults(file: &Value) -> Vec<String> {
    let faults = VALIDATOR.iter_errors(file);
    faults
        .map(|fault| format!("{}: {fault}", fault.instance_path()))
        .collect()
}

#[test]
fn the_schema_is_one_of_2020_12() {
    assert_eq!(
        SCHEMA["$schema"],
        json!("https://json-schema.org/draft/2020-12/schema")
    );
    assert!(jsonschema::draft202012::meta::is_valid(&SCHEMA));
}

#[test]
fn files_are_as_the_schema_says() {
    let file = full();
    assert_eq!(faults(&file), Vec::<String>::new());
    let kinds: Vec<&Value> = file["records"]
        .as_array()
        .unwrap()
        .iter()
        .map(|record| &record["kind"])
        .collect();
    for kind in Kind::ALL {
        assert!(kinds.contains(&&json!(kind.word())), "{kind}");
    }
    let empty = bundle(&Ledger::default()).write().unwrap();
    let empty = serde_json::from_str(&empty).unwrap();
    assert_eq!(faults(&empty), Vec::<String>::new());
}

/// Every property that the schema names is in the sample, so none is there unproved.
#[test]
fn the_sample_has_every_property() {
    fn names(value: &Value, seen: &mut Vec<String>) {
        match value {
            Value::Object(map) => map.iter().for_each(|(name, value)| {
                seen.push(name.clone());
                names(value, seen);
            }),
            Value::Array(list) => list.iter().for_each(|value| names(value, seen)),
            _ => {}
        }
    }
    fn properties(schema: &Value, named: &mut Vec<String>) {
        match schema {
            Value::Object(map) => map.iter().for_each(|(name, value)| {
                if name == "properties" {
                    named.extend(value.as_object().unwrap().keys().cloned());
                }
                properties(value, named);
            }),
            Value::Array(list) => list.iter().for_each(|value| properties(value, named)),
            _ => {}
        }
    }
    let (mut seen, mut named) = (Vec::new(), Vec::new());
    names(&full(), &mut seen);
    properties(&SCHEMA, &mut named);
    named.retain(|name| !seen.contains(name));
    assert_eq!(named, Vec::<String>::new());
}

#[test]
fn broken_files_are_not() {
    type Break = fn(&mut Value);
    let breaks: [(&str, Break); 9] = [
        ("format", |file| file["format"] = json!("another")),
        ("schema", |file| file["schema"] = json!(3)),
        ("written", |file| file["written"] = json!("yesterday")),
        ("count", |file| file["count"] = json!(-1)),
        ("sha256", |file| file["sha256"] = json!("abc")),
        ("no records", |file| {
            drop(file.as_object_mut().unwrap().remove("records"))
        }),
        ("an extra", |file| file["mood"] = json!("good")),
        ("a kind", |file| file["records"][0]["kind"] = json!("horse")),
        ("a record's schema", |file| {
            file["records"][0]["schema"] = json!(4)
        }),
    ];
    for (what, change) in breaks {
        let mut file = full();
        change(&mut file);
        assert!(!VALIDATOR.is_valid(&file), "{what}");
    }
}

/// The objects inside a record, each by its JSON pointer; maps by entry id left out.
fn objects(value: &Value, path: &str, found: &mut Vec<String>) {
    const MAPS: [&str; 10] = [
        "readings",
        "levels",
        "tallies",
        "faults",
        "states",
        "comments",
        "personal",
        "instruments",
        "settled",
        "heats",
    ];
    match value {
        Value::Object(map) => {
            if !MAPS.iter().any(|map| path.ends_with(&format!("/{map}"))) {
                found.push(path.to_owned());
            }
            for (name, value) in map {
                let name = name.replace('~', "~0").replace('/', "~1");
                objects(value, &format!("{path}/{name}"), found);
            }
        }
        Value::Array(list) => {
            for (at, value) in list.iter().enumerate() {
                objects(value, &format!("{path}/{at}"), found);
            }
        }
        _ => {}
    }
}

/// Whether the schema takes `record`; the reader says so by itself.
fn both(record: &Value) -> (bool, bool) {
    let mut file = full();
    file["records"] = json!([record]);
    let reads = Record::read(&record.to_string()).is_ok();
    (VALIDATOR.is_valid(&file), reads)
}

/// Files of older versions are files still.
#[test]
fn a_learner_as_older_versions_wrote_it_is_taken_by_both() {
    let file = full();
    let is_learner = |record: &&Value| record["kind"] == "learner";
    let learner = file["records"].as_array().unwrap().iter().find(is_learner);
    let mut old = learner.unwrap().clone();
    let object = old.as_object_mut().unwrap();
    object.retain(|name, _| {
        ["kind", "schema", "id", "stamp", "name", "given_number"].contains(&name.as_str())
    });
    old["schema"] = json!(1);
    assert_eq!(both(&old), (true, true), "{old}");
    for (name, value) in [
        ("employer", json!("Thornwick Forge")),
        ("started", json!("2026-09-01")),
        ("planned_end", json!("2027-09-01")),
        ("outside_numbers", json!([])),
        ("status", json!("learning")),
    ] {
        let mut mixed = old.clone();
        mixed[name] = value;
        assert_eq!(both(&mixed), (false, false), "{name}");
    }
}

#[test]
fn people_as_the_version_before_wrote_them_are_taken_by_both() {
    let file = full();
    for (kind, schema) in [("learner", 2), ("examiner", 1)] {
        let mut records = file["records"].as_array().unwrap().iter();
        let mut old = records.find(|one| one["kind"] == kind).unwrap().clone();
        old["schema"] = json!(schema);
        assert_eq!(both(&old), (true, true), "{old}");
        let erased = json!("2026-11-25T10:42:00.000+00:00");
        old["erased"] = erased.clone();
        assert_eq!(both(&old), (false, false), "{old}");
        old["schema"] = json!(schema + 1);
        assert_eq!(both(&old), (true, true), "{old}");
    }
}

#[test]
fn a_marking_as_older_versions_wrote_it_is_taken_by_both() {
    let file = full();
    let is_marking = |record: &&Value| record["kind"] == "marking" && record["role"] == "amended";
    let marking = file["records"].as_array().unwrap().iter().find(is_marking);
    let mut old = marking.unwrap().clone();
    let facts = old["facts"].as_object_mut().unwrap();
    let cut = facts.remove("cut").unwrap();
    for schema in 1..=9 {
        let mut mixed = old.clone();
        mixed["schema"] = json!(schema);
        mixed["facts"]["cut"] = cut.clone();
        assert_eq!(both(&mixed), (false, false), "cut in {schema}");
    }
    old["schema"] = json!(9);
    assert_eq!(both(&old), (false, false), "taken_over in 9");
    let log = old["facts"]["heat_log"].as_object_mut().unwrap();
    log.remove("taken_over").unwrap();
    assert_eq!(both(&old), (true, true), "{old}");
    let facts = old["facts"].as_object_mut().unwrap();
    let heat_log = facts.remove("heat_log").unwrap();
    for schema in 1..=8 {
        let mut mixed = old.clone();
        mixed["schema"] = json!(schema);
        mixed["facts"]["heat_log"] = heat_log.clone();
        assert_eq!(both(&mixed), (false, false), "heat_log in {schema}");
    }
    old["schema"] = json!(8);
    assert_eq!(both(&old), (true, true), "{old}");
    let facts = old["facts"].as_object_mut().unwrap();
    let outlines = facts.remove("outlines").unwrap();
    for schema in 1..=7 {
        let mut mixed = old.clone();
        mixed["schema"] = json!(schema);
        mixed["facts"]["outlines"] = outlines.clone();
        assert_eq!(both(&mixed), (false, false), "outlines in {schema}");
    }
    old["schema"] = json!(7);
    assert_eq!(both(&old), (true, true), "{old}");
    let facts = old["facts"]["instruments"].as_object_mut().unwrap();
    let shaped = facts.remove("depth-gauge").unwrap();
    let readings = old["facts"]["readings"].as_object_mut().unwrap();
    let reading = readings["near.length"][0].as_object_mut().unwrap();
    let stated = reading.remove("stated").unwrap();
    for schema in 1..=6 {
        let mut mixed = old.clone();
        mixed["schema"] = json!(schema);
        mixed["facts"]["readings"]["near.length"][0]["stated"] = stated.clone();
        assert_eq!(both(&mixed), (false, false), "stated in {schema}");
    }
    old["schema"] = json!(6);
    assert_eq!(both(&old), (true, true), "{old}");
    old["schema"] = json!(5);
    assert_eq!(both(&old), (true, true), "{old}");
    for schema in [2, 3, 4, 5] {
        for field in ["shape", "level_share"] {
            let mut mixed = old.clone();
            mixed["schema"] = json!(schema);
            let fact = &mut mixed["facts"]["instruments"]["protractor"];
            fact[field] = shaped[field].clone();
            assert_eq!(both(&mixed), (false, false), "{field} in {schema}");
        }
    }
    let photos = old.as_object_mut().unwrap().remove("photos").unwrap();
    old["schema"] = json!(3);
    assert_eq!(both(&old), (true, true), "{old}");
    for schema in [1, 2, 3] {
        let mut mixed = old.clone();
        mixed["schema"] = json!(schema);
        mixed["photos"] = photos.clone();
        assert_eq!(both(&mixed), (false, false), "photos in {schema}");
    }
    let object = old.as_object_mut().unwrap();
    let impression = object["facts"]["impression"].clone();
    object["facts"]
        .as_object_mut()
        .unwrap()
        .remove("impression");
    let second = json!({ "schema": 2 });
    object.extend(second.as_object().unwrap().clone());
    assert_eq!(both(&old), (true, true), "{old}");
    for schema in [1, 2] {
        let mut mixed = old.clone();
        mixed["schema"] = json!(schema);
        mixed["facts"]["impression"] = impression.clone();
        assert_eq!(both(&mixed), (false, false), "impression in {schema}");
    }
    let object = old.as_object_mut().unwrap();
    let fields = ["signature", "erased", "agreement"];
    let newer: Vec<_> = fields.map(|name| (name, object.remove(name))).into();
    old["schema"] = json!(1);
    let facts = old["facts"].as_object_mut().unwrap();
    let instruments = facts.remove("instruments").unwrap();
    assert_eq!(both(&old), (true, true), "{old}");
    let mut mixed = old.clone();
    mixed["facts"]["instruments"] = instruments;
    assert_eq!(both(&mixed), (false, false), "instruments");
    let newer = newer
        .into_iter()
        .filter_map(|(name, value)| Some((name, value?)));
    let newer: Vec<_> = newer.chain([("role", json!("third"))]).collect();
    assert!(newer.iter().any(|(name, _)| *name == "agreement"));
    for (name, value) in newer {
        let mut mixed = old.clone();
        mixed[name] = value;
        assert_eq!(both(&mixed), (false, false), "{name}");
    }
}

#[test]
fn an_instrument_as_older_versions_wrote_it_is_taken_by_both() {
    let file = full();
    let mut records = file["records"].as_array().unwrap().iter();
    let with = records.find(|record| record["kind"] == "instrument");
    let mut old = with.unwrap().clone();
    old["schema"] = json!(1);
    assert_eq!(both(&old), (true, true), "{old}");
    for (field, value) in [("shape", "triangular"), ("level_share", "0.5")] {
        let mut mixed = old.clone();
        mixed["fact"][field] = json!(value);
        assert_eq!(both(&mixed), (false, false), "{field}");
        mixed["schema"] = json!(2);
        assert_eq!(both(&mixed), (true, true), "{field}");
    }
}

#[test]
fn a_sitting_and_a_piece_as_older_versions_wrote_them_are_taken_by_both() {
    let file = full();
    for (kind, field) in [("sitting", "released"), ("piece", "feedback")] {
        let mut records = file["records"].as_array().unwrap().iter();
        let with = records.find(|record| record["kind"] == kind && record.get(field).is_some());
        let mut old = with.unwrap().clone();
        old["schema"] = json!(1);
        assert_eq!(both(&old), (false, false), "{field}");
        old.as_object_mut().unwrap().remove(field);
        assert_eq!(both(&old), (true, true), "{old}");
    }
}

#[test]
fn schema_and_reader_refuse_the_same_unknown_and_missing_fields() {
    for record in full()["records"].as_array().unwrap() {
        assert_eq!(both(record), (true, true), "{record}");
        let mut places = Vec::new();
        objects(record, "", &mut places);
        for place in places {
            let at = |record: &mut Value, change: &dyn Fn(&mut Map<String, Value>)| {
                let object = record.pointer_mut(&place).unwrap();
                change(object.as_object_mut().unwrap());
            };
            let mut more = record.clone();
            at(&mut more, &|object| {
                object.insert("unheard-of".to_owned(), json!("x"));
            });
            assert_eq!(both(&more), (false, false), "{place} of {more}");
            let names: Vec<String> = record
                .pointer(&place)
                .and_then(Value::as_object)
                .unwrap()
                .keys()
                .cloned()
                .collect();
            for name in names {
                let mut less = record.clone();
                at(&mut less, &|object| drop(object.remove(&name)));
                let (valid, reads) = both(&less);
                assert_eq!(valid, reads, "{place} without {name}: {less}");
                let mut other = record.clone();
                at(&mut other, &|object| {
                    object.insert(name.clone(), json!({ "unheard-of": [true] }));
                });
                assert_eq!(both(&other), (false, false), "{place}/{name}: {other}");
            }
        }
    }
}
