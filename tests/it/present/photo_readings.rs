//! Readings from a photo on the mark sheet: what is said of them, and typing over them.

use evenshod::marking::{
    Facts, InstrumentFact, PHOTO_GAUGE, PHOTO_GAUGE_ANGLES, ReadingFact, Stated, mark,
};
use evenshod::present::mark_sheet::{
    Input, Order, Row, Taking, chosen_instrument, face, instrument_tiles, plan, with_text,
};
use evenshod::quantity::{Dimension, Unit};
use evenshod::records::Ledger;
use evenshod::rubric::{Rubric, read_rubric, shipped};

use crate::records::sample::caliper;

fn bar_shoe() -> Rubric {
    read_rubric(shipped()[0].text).rubric.unwrap()
}

fn row(rubric: &Rubric, id: &str) -> Row {
    let parts = plan(rubric, Order::Rubric).into_iter();
    let mut rows = parts.flat_map(|part| part.rows);
    rows.find(|row| row.id == id).unwrap()
}

fn from_photo(text: &str, own: &str, shared: Option<&str>) -> ReadingFact {
    ReadingFact {
        instrument: Some(PHOTO_GAUGE.to_owned()),
        stated: Some(Stated {
            own: own.to_owned(),
            shared: shared.map(str::to_owned),
        }),
        ..ReadingFact::of(text)
    }
}

fn with(readings: &[(&str, ReadingFact)]) -> Facts {
    let gauge = InstrumentFact {
        name: "Photo gauge".to_owned(),
        half_width: None,
        standard_uncertainty: Some("0.3 mm".to_owned()),
        ..caliper()
    };
    let readings = readings.iter();
    Facts {
        readings: readings
            .map(|(slot, reading)| ((*slot).to_owned(), vec![reading.clone()]))
            .collect(),
        instruments: [(PHOTO_GAUGE.to_owned(), gauge)].into(),
        ..Facts::default()
    }
}

fn words(id: &str, facts: &Facts) -> String {
    let rubric = bar_shoe();
    let result = mark(&rubric, facts);
    face(&rubric, &row(&rubric, id), facts, &result, Unit::Millimetre).with
}

/// 0.13 mm is the root of 0.12² + 0.05² (JCGM 100:2008, 5.1.2).
#[test]
fn a_row_says_how_sure_its_own_readings_are() {
    let width = with(&[("width", from_photo("129.3 mm", "0.12 mm", Some("-0.05 mm")))]);
    assert_eq!(
        words("width", &width),
        "Photo gauge, standard uncertainty 0.13 mm"
    );
    let pair = with(&[
        ("branches-left", from_photo("140 mm", "0.15 mm", None)),
        ("branches-right", from_photo("141 mm", "0.1 mm", None)),
    ]);
    assert_eq!(
        words("branches", &pair),
        "Photo gauge, standard uncertainty 0.10 mm to 0.15 mm"
    );
    let mut plain = width;
    plain.readings.get_mut("width").unwrap()[0].stated = None;
    assert_eq!(
        words("width", &plain),
        "Photo gauge, standard uncertainty 0.3 mm"
    );
}

#[test]
fn what_is_typed_over_it_is_no_reading_from_a_photo() {
    let input = |member| Input {
        slot: "width".to_owned(),
        member,
        dom: "r-width".to_owned(),
        label: String::new(),
        dimension: Dimension::Length,
    };
    // A row with a reading from a photo is chosen to be taken with it.
    let taking = Taking {
        instrument: Some(PHOTO_GAUGE.to_owned()),
        ..Taking::default()
    };
    let before = [from_photo("129.3 mm", "0.12 mm", None)];
    let typed = |text: &str| with_text(&before, &input(None), text, &taking);
    assert_eq!(typed("129.3 m"), [ReadingFact::of("129.3 m")]);
    assert_eq!(typed(""), Vec::new(), "no choice outlasts it");
    assert_eq!(typed("129.3 mm"), before);
    // A repeat beside it is typed.
    let repeat = ReadingFact::of(" 130");
    assert_eq!(typed("129.3 mm; 130"), [before[0].clone(), repeat]);
    let member = with_text(&before, &input(Some(1)), "130", &taking);
    assert_eq!(member, [before[0].clone(), ReadingFact::of("130")]);
    // Another instrument stays; the figures were those of what stood there before.
    let mut laser = before[0].clone();
    laser.instrument = Some("laser".to_owned());
    let after = with_text(&[laser], &input(None), "130", &taking);
    assert_eq!(after[0].instrument.as_deref(), Some("laser"));
    assert_eq!(after[0].stated, None);
}

#[test]
fn a_photo_gauge_is_offered_where_it_was_used_alone() {
    let rubric = bar_shoe();
    let facts = with(&[("width", from_photo("129.3 mm", "0.12 mm", None))]);
    let offered = |id: &str| {
        let row = row(&rubric, id);
        let ledger = Ledger::default();
        let tiles = instrument_tiles(&rubric, &row, &facts, &ledger, Unit::Millimetre);
        let named = |tile: &&str| [PHOTO_GAUGE, PHOTO_GAUGE_ANGLES].contains(tile);
        tiles.iter().any(|tile| named(&tile.id.as_str()))
    };
    assert!(offered("width"));
    assert!(!offered("length"));
    assert_eq!(
        chosen_instrument(&row(&rubric, "width"), &facts).as_deref(),
        Some(PHOTO_GAUGE)
    );
}
