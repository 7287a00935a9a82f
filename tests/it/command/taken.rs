//! Readings of many entries taken in one step, as a photo gives them.

use std::collections::BTreeMap;

use evenshod::command::{Command, CommandError, Edit, Entered, apply};
use evenshod::marking::{
    Facts, Figure, InstrumentFact, OutlineFault, PHOTO_GAUGE, ReadingFact, Stated,
};
use evenshod::records::{Ledger, MarkingId};

use crate::records::sample::{after, caliper, outline, stamp, with_draft};

fn gauge(uncertainty: &str) -> InstrumentFact {
    InstrumentFact {
        name: "Photo gauge".to_owned(),
        half_width: None,
        standard_uncertainty: Some(uncertainty.to_owned()),
        ..caliper()
    }
}

fn from_photo(text: &str) -> ReadingFact {
    ReadingFact {
        instrument: Some(PHOTO_GAUGE.to_owned()),
        stated: Some(Stated {
            own: "0.12 mm".to_owned(),
            shared: Some("-0.05 mm".to_owned()),
        }),
        ..ReadingFact::of(text)
    }
}

fn take(readings: &[(&str, &str)], uncertainty: &str) -> Edit {
    let readings = readings.iter();
    Edit::TakeReadings {
        readings: readings
            .map(|(entry, text)| ((*entry).to_owned(), vec![from_photo(text)]))
            .collect(),
        instruments: BTreeMap::from([(PHOTO_GAUGE.to_owned(), gauge(uncertainty))]),
        outline: Some(outline(None)),
    }
}

/// A draft with the width typed.
fn drafted() -> (Ledger, MarkingId) {
    let (ledger, made) = with_draft();
    let marking = made.marking.unwrap();
    let typed = Edit::SetReadings {
        entry: "width".to_owned(),
        readings: vec![ReadingFact::of("129"), ReadingFact::of("129.5")],
    };
    let (ledger, _) = after(&ledger, Command::edit(marking, typed), &stamp(1));
    (ledger, marking)
}

fn facts(ledger: &Ledger, marking: MarkingId) -> &Facts {
    &ledger.marking(marking).unwrap().facts
}

#[test]
fn one_step_takes_all_and_one_takes_them_back() {
    let (typed, marking) = drafted();
    let edit = take(&[("width", "129.3 mm"), ("length", "134.1 mm")], "0.3 mm");
    let (taken, _) = after(&typed, Command::edit(marking, edit), &stamp(2));
    let now = facts(&taken, marking);
    assert_eq!(now.readings["width"], [from_photo("129.3 mm")]);
    assert_eq!(now.readings["length"], [from_photo("134.1 mm")]);
    assert_eq!(now.instruments[PHOTO_GAUGE], gauge("0.3 mm"));
    assert_eq!(now.outlines, [outline(None)]);

    // Another tab types over one of them before it is taken back.
    let entered = |ledger: &Ledger| Box::new(Entered::of(ledger.marking(marking).unwrap()));
    let back = Edit::TakeBack {
        before: entered(&typed),
        after: entered(&taken),
    };
    let (undone, _) = after(&taken, Command::edit(marking, back.clone()), &stamp(3));
    assert_eq!(facts(&undone, marking), facts(&typed, marking));
    let other = Edit::SetReadings {
        entry: "length".to_owned(),
        readings: vec![ReadingFact::of("134")],
    };
    let (other, _) = after(&taken, Command::edit(marking, other), &stamp(4));
    let (undone, _) = after(&other, Command::edit(marking, back), &stamp(5));
    let now = facts(&undone, marking);
    assert_eq!(now.readings["length"], [ReadingFact::of("134")]);
    assert_eq!(
        now.readings["width"],
        facts(&typed, marking).readings["width"]
    );
}

#[test]
fn a_second_photo_takes_the_place_of_the_first() {
    let (ledger, marking) = drafted();
    let first = take(&[("width", "129.3 mm"), ("length", "134.1 mm")], "0.3 mm");
    let (ledger, _) = after(&ledger, Command::edit(marking, first), &stamp(2));
    let second = take(&[("width", "129.4 mm")], "0.2 mm");
    let (ledger, _) = after(&ledger, Command::edit(marking, second), &stamp(3));
    let now = facts(&ledger, marking);
    assert_eq!(now.readings["width"], [from_photo("129.4 mm")]);
    assert_eq!(now.readings["length"], [from_photo("134.1 mm")]);
    assert_eq!(now.instruments[PHOTO_GAUGE], gauge("0.2 mm"));
}

#[test]
fn each_shoe_keeps_its_latest_outline() {
    let (mut ledger, marking) = drafted();
    let mut later = outline(Some("near"));
    later.unsure = 9;
    let kept = [outline(Some("near")), outline(Some("off")), later.clone()];
    for (seconds, outline) in (2..).zip(kept) {
        let edit = Edit::TakeReadings {
            readings: BTreeMap::new(),
            instruments: BTreeMap::new(),
            outline: Some(outline),
        };
        ledger = after(&ledger, Command::edit(marking, edit), &stamp(seconds)).0;
    }
    assert_eq!(
        facts(&ledger, marking).outlines,
        [outline(Some("off")), later]
    );
}

#[test]
fn an_outline_that_is_none_is_refused_and_nothing_changes() {
    let (ledger, marking) = drafted();
    let mut far = outline(None);
    far.outer[3] = (50_001, 0);
    let edit = Edit::TakeReadings {
        readings: BTreeMap::from([("width".to_owned(), vec![from_photo("129.3 mm")])]),
        instruments: BTreeMap::new(),
        outline: Some(far),
    };
    let refused = apply(&ledger, Command::edit(marking, edit), &stamp(2));
    let Err(CommandError::OutlineRefused(OutlineFault::Place(at))) = refused else {
        panic!("{refused:?}");
    };
    assert_eq!(at, "500.01 mm, 0 mm");
}

#[test]
fn an_instrument_that_cannot_be_read_is_refused_and_nothing_changes() {
    let (ledger, marking) = drafted();
    let edit = take(&[("width", "129.3 mm")], "much");
    let refused = apply(&ledger, Command::edit(marking, edit), &stamp(2));
    match refused {
        Err(CommandError::InstrumentRefused { name, fault }) => {
            assert_eq!(name, "Photo gauge");
            assert_eq!(fault.figure, Some(Figure::StandardUncertainty));
        }
        other => panic!("{other:?}"),
    }
}

/// The figures were the photo's, not those of what it is said to be measured with now.
#[test]
fn another_instrument_leaves_no_figures_of_the_photo() {
    let (ledger, marking) = drafted();
    let taken = take(&[("width", "129.3 mm")], "0.3 mm");
    let (ledger, _) = after(&ledger, Command::edit(marking, taken), &stamp(2));
    let choose = |instrument: Option<&str>| Edit::SetInstrument {
        entries: vec!["width".to_owned()],
        instrument: instrument.map(str::to_owned),
        own: None,
    };
    let same = Command::edit(marking, choose(Some(PHOTO_GAUGE)));
    let (same, _) = after(&ledger, same, &stamp(3));
    assert_eq!(facts(&same, marking), facts(&ledger, marking));
    let usual = Command::edit(marking, choose(None));
    let (usual, _) = after(&ledger, usual, &stamp(4));
    let readings = &facts(&usual, marking).readings["width"];
    assert_eq!(readings, &[ReadingFact::of("129.3 mm")]);
}
