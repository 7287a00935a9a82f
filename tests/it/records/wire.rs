use evenshod::command::Command;
use evenshod::records::{
    Kind, Layout, Learner, LearnerStatus, Ledger, Record, RecordKey, STEPS, Step, WireError,
};
use proptest::prelude::*;
use serde_json::{Map, Value};

use super::sample::{
    after, begin_study, caliper, jpeg, keep, milestone, seal, set_instrument, stamp,
    with_full_draft,
};

fn every_kind() -> Vec<Record> {
    let (ledger, made) = with_full_draft();
    let sealed = after(&ledger, seal(made.marking.unwrap()), &stamp(50)).0;
    let text = "title = \"Half a rubric".to_owned();
    let drafted = after(&ledger, Command::DraftRubric { text }, &stamp(51)).0;
    let command = set_instrument(&drafted, "caliper", caliper());
    let drafted = after(&drafted, command, &stamp(52)).0;
    let drafted = after(&drafted, keep(&jpeg(1)), &stamp(53)).0;
    let note = milestone(made.learner.unwrap(), "Began at the new yard");
    let drafted = after(&drafted, note, &stamp(55)).0;
    let columns = Command::SetColumns {
        layout: Layout::Long,
        columns: Layout::Long.usual().split_off(3),
    };
    let drafted = after(&drafted, columns, &stamp(54)).0;
    let drafted = after(&drafted, begin_study(), &stamp(55)).0;
    drafted.records().chain(sealed.records()).collect()
}

fn learner_text() -> String {
    every_kind()[0].write().unwrap()
}

fn with(change: impl Fn(&mut Map<String, Value>)) -> String {
    let mut map: Map<String, Value> = serde_json::from_str(&learner_text()).unwrap();
    change(&mut map);
    Value::Object(map).to_string()
}

#[test]
fn every_kind_reads_back_as_it_was() {
    let records = every_kind();
    for kind in Kind::ALL {
        assert!(records.iter().any(|record| record.kind() == kind), "{kind}");
    }
    for record in records {
        let text = record.write().unwrap();
        let kind = record.kind();
        let schema = kind.schema();
        let head = format!("{{\"kind\":\"{kind}\",\"schema\":{schema},\"id\":");
        assert!(text.starts_with(&head), "{text}");
        assert_eq!(Record::read(&text).as_ref(), Ok(&record));
        let key = record.key();
        assert_eq!(Record::read_at(&key.to_string(), &text), Ok(record));
        assert_eq!(key.to_string().parse(), Ok(key));
    }
}

/// A file may come from anywhere, so the limits hold on reading too.
#[test]
fn a_study_beyond_its_limits_is_refused_by_name() {
    let records = every_kind();
    let study = records.iter().find(|record| record.kind() == Kind::Study);
    let text = study.unwrap().write().unwrap();
    let long = "9".repeat(101);
    let cases = [
        (
            "\"trials\":2",
            "\"trials\":11".to_owned(),
            "trials: 11 of each; give 2 to 10",
        ),
        (
            "\"id\":2",
            "\"id\":1".to_owned(),
            "parts: each needs an id of its own above 0",
        ),
        ("1.2.2", "1.2.3".to_owned(), "a reading stands at 1.2.3"),
        (
            "1.2.2",
            "1.02.2".to_owned(),
            "`1.02.2` is no place of a reading",
        ),
        ("10.02", long, "reading: more than 100 letters"),
    ];
    for (from, to, why) in cases {
        let broken = text.replacen(from, &to, 1);
        assert_ne!(broken, text, "{from}");
        let error = Record::read(&broken).unwrap_err().to_string();
        assert!(error.contains(why), "{error}");
    }
}

#[test]
fn the_order_of_keys_does_not_matter() {
    for record in every_kind() {
        let sorted: Value = serde_json::from_str(&record.write().unwrap()).unwrap();
        assert_eq!(Record::read(&sorted.to_string()), Ok(record));
    }
}

#[test]
fn a_newer_schema_is_refused_and_its_stamp_still_read() {
    let text = with(|map| {
        map.insert("schema".to_owned(), 4.into());
        map.insert("pronouns".to_owned(), "they".into());
    });
    let error = Record::read(&text).unwrap_err();
    assert_eq!(
        error.to_string(),
        "this learner has schema 4, and this version reads up to 3; \
         reload the page to get a newer one"
    );
}

#[test]
fn an_unknown_kind_is_refused_by_name() {
    let text = with(|map| {
        map.insert("kind".to_owned(), "horse".into());
    });
    let error = Record::read(&text).unwrap_err();
    assert!(error.to_string().contains("kind `horse`"), "{error}");
    assert_eq!("horse/1".parse::<RecordKey>().ok(), None);
}

#[test]
fn fields_that_are_missing_unknown_or_wrong_are_refused() {
    let texts = [
        with(|map| {
            map.remove("name");
        }),
        with(|map| {
            map.insert("surname".to_owned(), "Smith".into());
        }),
        with(|map| {
            map.insert("id".to_owned(), "7".into());
        }),
    ];
    for (text, word) in texts.iter().zip(["`name`", "`surname`", "UUID"]) {
        match Record::read(text) {
            Err(WireError::Fields { why, .. }) => assert!(why.contains(word), "{why}"),
            other => panic!("{other:?}"),
        }
    }
    for text in [
        "",
        "{}",
        "[]",
        "null",
        "{\"kind\":1}",
        "{\"kind\":\"piece\"}",
    ] {
        let read = Record::read(text);
        assert!(matches!(read, Err(WireError::NotARecord { .. })), "{text}");
    }
    let trailing = format!("{} x", learner_text());
    assert!(Record::read(&trailing).is_err());
}

#[test]
fn a_record_under_another_key_is_refused() {
    let read = Record::read_at("learner/1", &learner_text());
    assert!(matches!(read, Err(WireError::Misplaced { .. })));
}

/// Schema 0 never was: it stands in for the first one that will be left behind.
fn from_schema_0(map: &mut Map<String, Value>) -> Result<(), String> {
    let name = map.remove("full_name").ok_or("there is no full_name")?;
    map.insert("name".to_owned(), name);
    Ok(())
}

#[test]
fn an_older_schema_is_brought_forward_step_by_step() {
    let old = with(|map| {
        map.insert("schema".to_owned(), 0.into());
        let name = map.remove("name").unwrap();
        map.insert("full_name".to_owned(), name);
        map.remove("status");
    });
    let step = |kind| Step {
        kind,
        from: 0,
        change: from_schema_0,
    };
    let steps = [step(Kind::Marking), step(Kind::Learner)];
    let all = [&steps[..], STEPS].concat();
    let read = Record::read_with(&old, &all);
    assert_eq!(read, Record::read(&learner_text()));
    // One step of the two is not enough.
    let read = Record::read_with(&old, &steps);
    assert!(matches!(read, Err(WireError::NoWay { schema: 1, .. })));

    let read = Record::read_with(&old, &[step(Kind::Marking)]);
    assert!(matches!(read, Err(WireError::NoWay { schema: 0, .. })));
    let bare = old.replace("full_name", "called");
    let error = Record::read_with(&bare, &[step(Kind::Learner)]).unwrap_err();
    assert!(
        error.to_string().ends_with("there is no full_name"),
        "{error}"
    );
}

/// As version 0.1 wrote it.
const LEARNER_1: &str = r#"{"kind":"learner","schema":1,"id":"01a12b3c-4d5e-7f60-8a9b-0c1d2e3f4a5b","stamp":{"time":1795603320000,"counter":0,"device":"bench tablet~0101010101010101"},"name":"Ada Smith","given_number":"17"}"#;

#[test]
fn a_learner_of_schema_1_is_read_and_has_been_learning() {
    let Ok(Record::Learner(learner)) = Record::read(LEARNER_1) else {
        panic!("{:?}", Record::read(LEARNER_1));
    };
    let mut known = Learner::named(learner.id, learner.stamp.clone(), "Ada Smith".to_owned());
    known.given_number = Some("17".to_owned());
    assert_eq!(*learner, known);
    assert_eq!(learner.status, LearnerStatus::Learning);
    let newer = LEARNER_1.replace("\"name\":\"Ada", "\"employer\":\"X\",\"name\":\"Ada");
    let error = Record::read(&newer).unwrap_err();
    assert!(error.to_string().ends_with("schema 1 has no `employer`"));
}

#[test]
fn a_marking_of_schema_1_is_read_unsigned_and_with_its_text() {
    let records = every_kind();
    let is_marking = |record: &&Record| record.kind() == Kind::Marking;
    let now = records.iter().find(is_marking).unwrap();
    let text = now.write().unwrap();
    let old = text.replace("\"schema\":10", "\"schema\":1");
    assert_ne!(old, text);
    assert_eq!(Record::read(&old).as_ref(), Ok(now));
    let mixed = old.replace(
        "\"schema\":1",
        "\"schema\":1,\"erased\":\"2026-11-25T10:42:00.000+00:00\"",
    );
    let error = Record::read(&mixed).unwrap_err();
    assert!(error.to_string().ends_with("schema 1 has no `erased`"));
}

#[test]
fn a_status_is_written_as_its_word() {
    for status in LearnerStatus::ALL {
        assert_eq!(serde_json::json!(status), status.word());
    }
}

proptest! {
    #[test]
    fn mangled_text_never_panics_and_what_reads_is_stable(
        which in any::<prop::sample::Index>(),
        edits in prop::collection::vec((any::<prop::sample::Index>(), 0..5_u8, any::<char>()), 1..6),
    ) {
        let records = every_kind();
        let mut text: Vec<char> = which.get(&records).write().unwrap().chars().collect();
        for (at, how, letter) in edits {
            let at = at.index(text.len());
            match how {
                0 => text.truncate(at.max(1)),
                1 => text[at] = letter,
                2 => { text.remove(at); if text.is_empty() { text.push('{'); } }
                3 => text.insert(at, ['{', '}', '"', ',', '9', '[', '\\'][usize::from(letter as u8 % 7)]),
                _ => { let part = text[at..].to_vec(); text.extend(part); }
            }
        }
        let text: String = text.into_iter().collect();
        let step = Step { kind: Kind::Learner, from: 0, change: from_schema_0 };
        if let Ok(record) = Record::read_with(&text, &[step]) {
            prop_assert_eq!(Record::read(&record.write().unwrap()), Ok(record.clone()));
            let _ = Ledger::of([record]);
        }
    }
}
