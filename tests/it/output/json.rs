//! A sealed marking as a file, verified from the file alone.

use std::collections::BTreeSet;
use std::sync::LazyLock;

use evenshod::output::json::{JsonError, read, write};
use evenshod::records::{
    Ledger, MarkingId, PersonalText, SealError, check_seal, sealed_document, sha256_hex,
};
use proptest::prelude::*;
use serde_json::Value;

use crate::records::sample::{comment, erase, now, rename, seal};
use crate::sheet::sample::{performed, sealed_bar_shoe, whole_bar_shoe};

fn file(ledger: &Ledger, marking: MarkingId) -> Result<String, JsonError> {
    write(ledger.seal_parts(ledger.marking(marking).unwrap()).unwrap())
}

fn sealed_file() -> String {
    let (ledger, marking) = sealed_bar_shoe();
    file(&ledger, marking).unwrap()
}

static SEALED: LazyLock<String> = LazyLock::new(sealed_file);

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
    let found = read(&sealed_file()).unwrap().personal;
    let labels: Vec<_> = found.keys().map(String::as_str).collect();
    assert_eq!(labels, ["comment/weld", "examiner", "learner", "overall"]);
    let kinds: BTreeSet<_> = found.values().map(|text| format!("{text:?}")).collect();
    assert_eq!(kinds, BTreeSet::from(["Same".to_owned()]));
}

/// Ten thousand letters with combining marks, from right to left, with tags and a zero
/// byte: sealed, written and read back letter by letter.
#[test]
fn a_long_comment_goes_through_whole() {
    let piece = "e\u{301}\u{323} عربي\u{202e} <script>alert(1)</script> \0 ";
    let long: String = piece.chars().cycle().take(10_000).collect();
    let (ledger, marking) = whole_bar_shoe();
    let ledger = performed(ledger, vec![comment(marking, None, &long), seal(marking)]);
    let found = read(&file(&ledger, marking).unwrap()).unwrap();
    assert!(found.is_intact());
    assert_eq!(
        found.records.marking.overall.as_deref(),
        Some(long.as_str())
    );
    assert_eq!(found.personal["overall"], PersonalText::Same);
}

#[test]
fn any_changed_fact_is_seen() {
    let text = sealed_file();
    let changed = text.replace("\"62,4\"", "\"63,4\"");
    assert_ne!(text, changed);
    let found = read(&changed).unwrap();
    assert!(!found.is_intact());
    assert_eq!(
        found.found,
        sha256_hex(
            sealed_document(found.records.parts())
                .unwrap()
                .canonical
                .as_bytes()
        )
    );
    assert!(!check_seal(found.records.parts()).unwrap().intact);
}

#[test]
fn a_changed_name_and_an_erased_one_are_told_apart() {
    let text = sealed_file();
    let changed = text.replace("\"Ada Smith\"", "\"Ada Jones\"");
    assert_eq!(
        read(&changed).unwrap().personal["learner"],
        PersonalText::Changed
    );
    let erased = text.replace(",\"text\":\"Ada Smith\"", "");
    assert_eq!(
        read(&erased).unwrap().personal["learner"],
        PersonalText::Erased
    );
    let mut whole: Value = serde_json::from_str(&text).unwrap();
    let personal = whole["personal"].as_object_mut().unwrap();
    assert!(personal.remove("learner").is_some());
    assert_eq!(
        read(&whole.to_string()).unwrap().personal["learner"],
        PersonalText::Erased
    );
}

#[test]
fn spaces_between_do_not_matter() {
    let value: Value = serde_json::from_str(&sealed_file()).unwrap();
    let found = read(&serde_json::to_string_pretty(&value).unwrap()).unwrap();
    assert!(found.is_intact());
}

#[test]
fn a_name_changed_after_the_seal_does_not_enter_the_file() {
    let (ledger, marking) = sealed_bar_shoe();
    let learner = ledger.learners().next().unwrap().id;
    let rename = rename(&ledger, learner, "Ada Jones");
    let ledger = performed(ledger, vec![rename]);
    let text = file(&ledger, marking).unwrap();
    assert!(!text.contains("Ada S") && !text.contains("Ada J"), "{text}");
    assert_eq!(
        read(&text).unwrap().personal["learner"],
        PersonalText::Erased
    );
}

#[test]
fn drafts_and_other_files_are_refused_with_a_way_out() {
    let (ledger, marking) = whole_bar_shoe();
    assert_eq!(
        file(&ledger, marking),
        Err(JsonError::Seal(SealError::NotSealed))
    );
    for text in [
        "[]",
        "{\"file\":\"x\"}",
        "\u{0}",
        "{",
        "{\"format\":\"evenshod ledger\"}",
    ] {
        let error = read(text).unwrap_err().to_string();
        assert!(error.contains("choose the JSON file"), "{error}");
    }
    assert_eq!(read(" \n"), Err(JsonError::Empty));
    let newer = sealed_file().replace("\"schema\":2,\"sha256\"", "\"schema\":3,\"sha256\"");
    let (found, newest) = (3, 2);
    assert_eq!(read(&newer), Err(JsonError::Newer { found, newest }));
}

#[test]
fn a_file_of_the_first_layout_is_read() {
    let old = sealed_file().replace("\"schema\":2,\"sha256\"", "\"schema\":1,\"sha256\"");
    assert!(read(&old).unwrap().is_intact());
    let at = "\"erased\":\"2026-11-25T10:42:00.000+00:00\",\"file\"";
    let mixed = old.replacen("\"file\"", at, 1);
    let error = read(&mixed).unwrap_err().to_string();
    assert!(error.contains("schema 1 has no `signature`"), "{error}");
}

#[test]
fn the_records_in_it_are_those_that_were_sealed() {
    let (ledger, marking) = sealed_bar_shoe();
    let parts = ledger.seal_parts(ledger.marking(marking).unwrap()).unwrap();
    let found = read(&write(parts).unwrap()).unwrap();
    assert!(found.is_intact() && found.has_its_rubric());
    let own = found.records.parts();
    assert_eq!(own.marking.facts, parts.marking.facts);
    assert_eq!(own.marking.comments, parts.marking.comments);
    assert_eq!(own.marking.seal, parts.marking.seal);
    assert_eq!(own.rubric.text, parts.rubric.text);
    assert_eq!(own.learner.unwrap().name, "Ada Smith");
    assert_eq!(own.examiner.name, "Wm. Green");
    assert_eq!(sealed_document(own), sealed_document(parts));
}

#[test]
fn erased_text_and_its_day_are_in_it() {
    let (ledger, marking) = sealed_bar_shoe();
    let overall = ledger.marking(marking).unwrap().overall.clone().unwrap();
    let ledger = performed(ledger, vec![erase(marking)]);
    let text = file(&ledger, marking).unwrap();
    assert!(!text.contains(&overall));
    let found = read(&text).unwrap();
    assert!(found.is_intact());
    assert_eq!(found.records.marking.erased, Some(now()));
    assert_eq!(found.personal["overall"], PersonalText::Erased);
    assert_eq!(found.personal["learner"], PersonalText::Same);
}

#[test]
fn a_cut_file_and_a_broken_one_say_where() {
    let text = sealed_file();
    let half = &text[..text.len() / 2];
    let error = read(half).unwrap_err();
    assert!(
        matches!(error, JsonError::CutShort { line: 1, .. }),
        "{error}"
    );
    let broken = text.replacen("\"marking\":{", "\"marking\":;", 1);
    let error = read(&broken).unwrap_err();
    let place = broken.find("\"marking\":;").unwrap() + "\"marking\":;".len();
    assert_eq!(
        error,
        JsonError::Damaged {
            line: 1,
            column: place,
            why: "expected value".to_owned()
        }
    );
    let misspelt = text.replacen("\"role\":\"first\"", "\"role\":\"fxrst\"", 1);
    let error = read(&misspelt).unwrap_err().to_string();
    assert!(
        error.contains("altered or damaged") && error.contains("fxrst"),
        "{error}"
    );
}

/// Text from elsewhere is text: it is read and given back as it is, and changing it shows.
#[test]
fn markup_and_marks_of_direction_are_text() {
    let (ledger, marking) = whole_bar_shoe();
    let odd =
        "<script>alert(1)</script> e\u{301} \u{202e}\u{5e9}\u{5dc}\u{5d5}\u{5dd}\u{202c} &amp; \"";
    let ledger = performed(ledger, vec![comment(marking, None, odd), seal(marking)]);
    let text = file(&ledger, marking).unwrap();
    let found = read(&text).unwrap();
    assert_eq!(found.records.marking.overall.as_deref(), Some(odd));
    // The same letter as one character is another text.
    let composed = text.replace("e\u{301}", "\u{e9}");
    assert_eq!(
        read(&composed).unwrap().personal["overall"],
        PersonalText::Changed
    );
    let turned = text.replace('\u{202e}', "");
    assert_eq!(
        read(&turned).unwrap().personal["overall"],
        PersonalText::Changed
    );
}

/// Where how it is verified is told, which no digest covers.
fn how(text: &str) -> std::ops::Range<usize> {
    let start = text.find("\"how_to_verify\":").unwrap();
    let end = text[start..].find("\",\"personal\"").unwrap();
    start..start + end
}

proptest! {
    /// One byte changed anywhere is refused, or told as altered, or told of the text
    /// that it is in.
    #[test]
    fn no_changed_byte_goes_unseen(at in any::<prop::sample::Index>(), to in 0..128_u8) {
        let text = SEALED.as_str();
        let at = at.index(text.len());
        let mut bytes = text.as_bytes().to_vec();
        prop_assume!(bytes[at] != to && !how(text).contains(&at));
        bytes[at] = to;
        let Ok(changed) = String::from_utf8(bytes) else { return Ok(()) };
        if let Ok(found) = read(&changed) {
            let all_same = found.personal.values().all(|text| *text == PersonalText::Same);
            prop_assert!(!(found.is_intact() && all_same), "{at}");
        }
    }

    #[test]
    fn no_text_panics(
        cut in any::<prop::sample::Index>(),
        more in "\\PC{0,40}",
        from in any::<prop::sample::Index>(),
    ) {
        let letters: Vec<char> = SEALED.chars().collect();
        let (cut, from) = (cut.index(letters.len()), from.index(letters.len()));
        let mangled: String = letters[..cut].iter().copied().chain(more.chars())
            .chain(letters[from..].iter().copied()).collect();
        let _ = read(&mangled);
        let _ = read(&more);
    }
}
