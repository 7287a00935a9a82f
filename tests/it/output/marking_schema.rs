//! The published schema of the file of one sealed marking, held against what is written and
//! read by a validator that is not ours.

use std::sync::LazyLock;

use evenshod::command::{Amend, Command};
use evenshod::output::json::{read, write};
use evenshod::records::{Ledger, Marking, Record};
use jsonschema::Validator;
use serde_json::{Value, json};

use crate::demo::sample::demo;
use crate::records::sample::{after, erase, now, seal, signature, stamp};
use crate::sheet::sample::{performed, sealed_bar_shoe};

fn schema(text: &str) -> Value {
    serde_json::from_str(text).unwrap()
}

static SCHEMA: LazyLock<Value> =
    LazyLock::new(|| schema(include_str!("../../../examples/marking.schema.json")));

static VALIDATOR: LazyLock<Validator> =
    LazyLock::new(|| jsonschema::draft202012::new(&SCHEMA).unwrap());

/// The files of every sealed marking of `ledger`.
fn files(ledger: &Ledger) -> Vec<Value> {
    let sealed = ledger.markings().filter(|marking| marking.seal.is_some());
    let files = sealed.filter_map(|marking| write(ledger.seal_parts(marking)?).ok());
    files.map(|text| schema(&text)).collect()
}

/// A correction, what it corrects with its text erased and a signature beside it.
fn full() -> Vec<Value> {
    let (ledger, marking) = sealed_bar_shoe();
    let amend = Command::Amend(Box::new(Amend {
        marking,
        examiner: "J. Reed".to_owned(),
        reason: "a reading was swapped".to_owned(),
        at: now(),
    }));
    let (ledger, made) = after(&ledger, amend, &stamp(80));
    let ledger = performed(ledger, vec![seal(made.marking.unwrap()), erase(marking)]);
    let records = ledger.records().map(|record| match record {
        Record::Marking(one) if one.id == marking => Record::from(Marking {
            signature: Some(signature()),
            ..(*one).clone()
        }),
        other => other,
    });
    files(&Ledger::of(records))
}

#[track_caller]
fn is_taken(file: &Value) {
    let faults = VALIDATOR.iter_errors(file);
    let faults: Vec<String> = faults
        .map(|fault| format!("{}: {fault}", fault.instance_path()))
        .collect();
    assert_eq!(faults, Vec::<String>::new());
    assert!(read(&file.to_string()).is_ok());
}

#[test]
fn it_is_a_schema_of_2020_12() {
    assert!(jsonschema::draft202012::meta::is_valid(&SCHEMA));
    assert_eq!(
        SCHEMA["$schema"],
        "https://json-schema.org/draft/2020-12/schema"
    );
}

#[test]
fn every_marking_of_the_invented_school_is_as_it_says() {
    let files = files(demo());
    let sealed = demo().markings().filter(|marking| marking.seal.is_some());
    assert_eq!(files.len(), sealed.count());
    assert!(files.len() > 100);
    files.iter().for_each(is_taken);
}

#[test]
fn so_are_all_that_may_be_left_out() {
    let files = full();
    assert_eq!(files.len(), 2);
    files.iter().for_each(is_taken);
    let has = |pointer: &str| files.iter().any(|file| file.pointer(pointer).is_some());
    assert!(has("/signature") && has("/erased") && has("/document/marking/replaces/reason"));
    let mut older = files[0].clone();
    older["schema"] = json!(1);
    for name in ["signature", "erased"] {
        older.as_object_mut().unwrap().remove(name);
    }
    is_taken(&older);
}

#[test]
fn damaged_ones_are_not() {
    type Break = fn(&mut Value);
    let breaks: [(&str, Break); 12] = [
        ("its name", |file| file["file"] = json!("another")),
        ("a newer layout", |file| file["schema"] = json!(3)),
        ("no digest", |file| {
            drop(file.as_object_mut().unwrap().remove("sha256"))
        }),
        ("a short digest", |file| file["sha256"] = json!("abc")),
        ("no document", |file| {
            drop(file.as_object_mut().unwrap().remove("document"))
        }),
        ("an extra", |file| file["mood"] = json!("good")),
        ("a role", |file| {
            file["document"]["marking"]["role"] = json!("horse")
        }),
        ("a fact", |file| {
            file["document"]["facts"]["mood"] = json!({})
        }),
        ("a day", |file| {
            file["document"]["sitting"]["day"] = json!("yesterday")
        }),
        ("no rubric text", |file| {
            drop(
                file["document"]["rubric"]
                    .as_object_mut()
                    .unwrap()
                    .remove("text"),
            )
        }),
        ("a salt", |file| {
            file["personal"]["examiner"]["salt"] = json!("00")
        }),
        ("a signature in layout 1", |file| {
            file["schema"] = json!(1);
            file["signature"] =
                json!({"algorithm": "ecdsa-p256-sha256", "public_key": "", "value": ""});
        }),
    ];
    let whole = files(demo()).swap_remove(0);
    for (what, change) in breaks {
        let mut file = whole.clone();
        change(&mut file);
        assert!(!VALIDATOR.is_valid(&file), "{what}");
    }
}

/// What both schemas describe they describe alike.
#[test]
fn it_says_the_same_as_the_schema_of_ledgers() {
    let ledger = schema(include_str!("../../../examples/ledger.schema.json"));
    let mut shared = 0;
    for (name, own) in SCHEMA["$defs"].as_object().unwrap() {
        if let Some(other) = ledger["$defs"].get(name) {
            assert_eq!(own, other, "{name}");
            shared += 1;
        }
    }
    assert!(shared > 10);
}
