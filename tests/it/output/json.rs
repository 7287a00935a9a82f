//! A sealed marking as a file, verified from the file alone.

use std::collections::BTreeSet;

use evenshod::output::json::{JsonError, check, write};
use evenshod::records::{Ledger, MarkingId, PersonalText, SealError, sha256_hex};
use serde_json::Value;

use crate::records::sample::rename;
use crate::sheet::sample::{performed, sealed_bar_shoe, whole_bar_shoe};

fn file(ledger: &Ledger, marking: MarkingId) -> Result<String, JsonError> {
    write(ledger.seal_parts(ledger.marking(marking).unwrap()).unwrap())
}

fn sealed_file() -> String {
    let (ledger, marking) = sealed_bar_shoe();
    file(&ledger, marking).unwrap()
}

#[test]
fn the_document_stands_in_it_byte_for_byte_as_it_was_hashed() {
    let text = sealed_file();
    let value: Value = serde_json::from_str(&text).unwrap();
    let start = text.find("{\"document\":").unwrap() + "{\"document\":".len();
    let end = text.find(",\"file\":").unwrap();
    assert_eq!(sha256_hex(&text.as_bytes()[start..end]), value["sha256"]);
}

#[test]
fn it_checks_and_names_every_personal_text() {
    let found = check(&sealed_file()).unwrap();
    let labels: Vec<_> = found.keys().map(String::as_str).collect();
    assert_eq!(labels, ["comment/weld", "examiner", "learner", "overall"]);
    let kinds: BTreeSet<_> = found.values().map(|text| format!("{text:?}")).collect();
    assert_eq!(kinds, BTreeSet::from(["Same".to_owned()]));
}

#[test]
fn any_changed_fact_is_seen() {
    let text = sealed_file();
    let changed = text.replace("\"62,4\"", "\"63,4\"");
    assert_ne!(text, changed);
    assert!(matches!(
        check(&changed),
        Err(JsonError::Seal(SealError::Differs { .. }))
    ));
}

#[test]
fn a_changed_name_and_an_erased_one_are_told_apart() {
    let text = sealed_file();
    let changed = text.replace("\"Ada Smith\"", "\"Ada Jones\"");
    assert_eq!(check(&changed).unwrap()["learner"], PersonalText::Changed);
    let erased = text.replace(",\"text\":\"Ada Smith\"", "");
    assert_eq!(check(&erased).unwrap()["learner"], PersonalText::Erased);
    let mut whole: Value = serde_json::from_str(&text).unwrap();
    let personal = whole["personal"].as_object_mut().unwrap();
    assert!(personal.remove("learner").is_some());
    assert_eq!(
        check(&whole.to_string()).unwrap()["learner"],
        PersonalText::Erased
    );
}

#[test]
fn spaces_between_do_not_matter() {
    let value: Value = serde_json::from_str(&sealed_file()).unwrap();
    assert!(check(&serde_json::to_string_pretty(&value).unwrap()).is_ok());
}

#[test]
fn a_name_changed_after_the_seal_does_not_enter_the_file() {
    let (ledger, marking) = sealed_bar_shoe();
    let learner = ledger.learners().next().unwrap().id;
    let rename = rename(&ledger, learner, "Ada Jones");
    let ledger = performed(ledger, vec![rename]);
    let text = file(&ledger, marking).unwrap();
    assert!(!text.contains("Ada S") && !text.contains("Ada J"), "{text}");
    assert_eq!(check(&text).unwrap()["learner"], PersonalText::Erased);
}

#[test]
fn drafts_and_other_files_are_refused_with_a_way_out() {
    let (ledger, marking) = whole_bar_shoe();
    assert_eq!(
        file(&ledger, marking),
        Err(JsonError::Seal(SealError::NotSealed))
    );
    for text in ["", "[]", "{\"file\":\"x\"}", "\u{0}"] {
        let error = check(text).unwrap_err().to_string();
        assert!(error.contains("choose the JSON file"), "{error}");
    }
    let newer = sealed_file().replace("\"schema\":1,\"sha256\"", "\"schema\":2,\"sha256\"");
    assert_eq!(check(&newer), Err(JsonError::Newer { found: 2 }));
}
