//! Readings from a photo on the scored sheet, under the seal and in the workbook.

use std::collections::BTreeMap;

use evenshod::command::Edit;
use evenshod::marking::{InstrumentFact, PHOTO_GAUGE, ReadingFact, Stated};
use evenshod::quantity::Dimension;
use evenshod::records::{Ledger, MarkingId, sealed_document};
use evenshod::sheet::workbook;
use serde_json::{Value, json};

use super::sample::{edited, look, performed, plain, readings, sheet, whole_bar_shoe};
use crate::records::sample::seal;

fn from_photo(text: &str, own: &str, shared: &str) -> ReadingFact {
    ReadingFact {
        instrument: Some(PHOTO_GAUGE.to_owned()),
        stated: Some(Stated {
            own: own.to_owned(),
            shared: Some(shared.to_owned()),
        }),
        ..ReadingFact::of(text)
    }
}

/// The whole bar shoe with width and length from a photo.
fn photographed() -> (Ledger, MarkingId) {
    let (ledger, marking) = whole_bar_shoe();
    let gauge = InstrumentFact {
        name: "Photo gauge".to_owned(),
        measures: Dimension::Length,
        half_width: None,
        shape: None,
        level_share: None,
        standard_uncertainty: Some("0.4 mm".to_owned()),
        repeatability: None,
        shared: None,
        source: "told on rendered photographs of known shoes".to_owned(),
    };
    let width = from_photo("130.4 mm", "0.12 mm", "-0.05 mm");
    let length = from_photo("137.5 mm", "0.24 mm", "0.1 mm");
    let take = Edit::TakeReadings {
        readings: BTreeMap::from([
            ("width".to_owned(), vec![width]),
            ("length".to_owned(), vec![length]),
        ]),
        instruments: BTreeMap::from([(PHOTO_GAUGE.to_owned(), gauge)]),
        outline: None,
    };
    (edited(ledger, marking, vec![take]), marking)
}

/// By hand: u = √(0.12² + 0.05²) = 0.13 mm and √(0.24² + 0.1²) = 0.26 mm; U = 2 u.
#[test]
fn the_sheet_says_how_sure_each_is() {
    let (ledger, marking) = photographed();
    let text = plain(&sheet(&ledger, marking));
    for wanted in [
        "130.4 mm with photo gauge ± 0.26 mm; ",
        "137.5 mm with photo gauge ± 0.52 mm; ",
        "Photo gauge: standard uncertainty 0.13 mm to 0.26 mm, as each reading states it; told on \
         rendered photographs of known shoes",
    ] {
        assert!(text.contains(wanted), "{wanted} in\n{text}");
    }
    // One that states nothing brings the instrument's own figures back beside them.
    let mut typed = ReadingFact::of("61 mm");
    typed.instrument = Some(PHOTO_GAUGE.to_owned());
    let other = Edit::SetReadings {
        entry: "heel-gap".to_owned(),
        readings: vec![typed],
    };
    let mixed = plain(&sheet(&edited(ledger, marking, vec![other]), marking));
    let wanted = "as each reading states it; else standard uncertainty 0.4 mm; told on";
    assert!(mixed.contains(wanted), "{mixed}");
}

#[test]
fn the_workbook_has_the_uncertainty_of_each() {
    let (ledger, marking) = photographed();
    let found: Vec<String> = look(&ledger, marking, |scored| {
        let book = workbook("Piece", std::slice::from_ref(scored));
        let sheet = book.sheets.iter().find(|sheet| sheet.name == "Readings");
        let rows = &sheet.unwrap().rows;
        let at = |head: &str| rows.columns.iter().position(|one| one == head).unwrap();
        let (typed, standard) = (at("Typed"), at("Standard uncertainty"));
        let rows = rows
            .rows
            .iter()
            .filter(|row| ["130.4 mm", "137.5 mm"].contains(&row[typed].words().as_str()));
        rows.map(|row| row[standard].words()).collect()
    });
    assert_eq!(found, ["0.13", "0.26"]);
}

#[test]
fn the_seal_covers_it_and_markings_without_are_sealed_as_before() {
    let (ledger, marking) = photographed();
    let document = |ledger: &Ledger| -> Value {
        let sealed = performed(ledger.clone(), vec![seal(marking)]);
        look(&sealed, marking, |scored| {
            let document = sealed_document(scored.parts).unwrap();
            serde_json::from_str(&document.canonical).unwrap()
        })
    };
    let readings_of = |document: &Value| document["facts"]["readings"]["width"].clone();
    assert_eq!(
        readings_of(&document(&ledger)),
        json!([{
            "text": "130.4 mm",
            "instrument": "photo-gauge",
            "stated": { "own": "0.12 mm", "shared": "-0.05 mm" }
        }])
    );
    let typed = edited(ledger, marking, vec![readings("width", &["130.4"])]);
    assert_eq!(readings_of(&document(&typed)), json!([{ "text": "130.4" }]));
}
