//! Instrument studies from typed text to figures.

use evenshod::figures::Lacking;
use evenshod::quantity::Unit;
use evenshod::records::{Place, StudyFacts, StudyPart, StudyPerson};
use evenshod::study::{Worked, taken, worked};

use crate::records::sample::caliper;

/// Measurement Systems Analysis, 4th edition 2010 (AIAG), chapter III, with 10 added to each
/// reading, as a length is not negative: 10 parts, 3 people, 3 trials; a row is a part.
pub const AIAG: &str = "10.29 10.41 10.64 10.08 10.25 10.07 10.04 9.89 9.85
     9.44 9.32 9.42 9.53 8.78 9.32 8.62 8.87 9.04
     11.34 11.17 11.27 11.19 10.94 11.34 10.88 11.09 10.67
     10.47 10.5 10.64 10.01 11.03 10.2 10.14 10.2 10.11
     9.2 9.08 9.16 9.44 8.8 8.72 8.54 8.93 8.55
     10.02 9.89 9.79 9.8 10.22 10.06 9.71 9.33 9.51
     10.59 10.75 10.66 10.47 10.55 10.83 10.02 10.01 10.21
     9.69 9.8 9.83 9.37 10.08 9.66 9.54 9.44 9.51
     12.26 11.99 12.01 11.8 12.12 12.19 11.77 11.45 11.87
     8.64 8.75 8.69 8.32 8.38 8.5 8.51 8.23 7.84";

fn place(part: u32, person: u32, trial: u32) -> Place {
    Place {
        part,
        person,
        trial,
    }
}

/// A row is a part; in it person after person.
pub fn study(table: &str, people: u32, trials: u32) -> StudyFacts {
    let rows: Vec<&str> = table.lines().collect();
    let part = |id: u32| StudyPart {
        id,
        ..StudyPart::default()
    };
    let person = |id: u32| StudyPerson {
        id,
        name: String::new(),
    };
    let mut facts = StudyFacts {
        name: "Spring".to_owned(),
        instrument: "caliper".to_owned(),
        day: "2026-03-02".parse().unwrap(),
        unit: Unit::Millimetre,
        parts: (1..).take(rows.len()).map(part).collect(),
        people: (1..=people).map(person).collect(),
        trials,
        readings: Default::default(),
        note: String::new(),
    };
    let texts = rows.iter().flat_map(|row| row.split_whitespace());
    let typed = facts.places().zip(texts.map(str::to_owned));
    facts.readings = typed.collect();
    facts
}

fn close(found: f64, wanted: f64, off: f64) {
    assert!((found - wanted).abs() <= off, "{found} is not {wanted}");
}

/// Values as in the test of the figures themselves.
#[test]
fn a_published_study_gives_its_figures() {
    let found = worked(&study(AIAG, 3, 3));
    let own = found.by_variance.unwrap().deviations;
    close(own.repeatability, 0.199_933, 2e-6);
    close(own.reproducibility, 0.226_838, 2e-6);
    close(own.part, 1.042_327, 2e-6);
    let ranges = found.by_ranges.unwrap().deviations;
    close(ranges.gauge, 0.305_75, 1e-4);
    assert_eq!(ranges.categories().unwrap().distinct, 5);
    assert!(found.grid.empty.is_empty() && found.grid.unreadable.is_empty());
}

/// Squares about the cells' means by hand: 2 of {10, 12}, 8 of {20, 24}; 10 over 2.
#[test]
fn repeatability_needs_neither_two_people_nor_whole_parts() {
    let mut facts = study("10 12\n20 24\n30 31", 1, 2);
    let gone = place(3, 1, 2);
    facts.readings.insert(gone, " ".to_owned());
    let found = worked(&facts);
    let own = found.repeatability.unwrap();
    close(own.deviation, 5f64.sqrt(), 1e-12);
    close(own.df, 2.0, 0.0);
    assert_eq!(found.grid.empty, [gone]);
    assert_eq!(found.grid.whole, [0, 1]);
    assert!(matches!(
        found.by_variance,
        Err(Lacking::TooFew {
            what: "operators",
            ..
        })
    ));
}

#[test]
fn what_cannot_be_read_is_named_and_its_part_left_out() {
    let mut facts = study(AIAG, 3, 3);
    let wrong = place(5, 2, 3);
    facts.readings.insert(wrong, "tall".to_owned());
    let found = worked(&facts);
    assert_eq!(found.grid.unreadable.len(), 1);
    assert_eq!(found.grid.unreadable[0].place, wrong);
    assert!(
        found.grid.unreadable[0]
            .why
            .contains("`tall` is not a number")
    );
    assert_eq!(found.grid.whole, [0, 1, 2, 3, 5, 6, 7, 8, 9]);
    assert!(found.by_variance.is_ok());
}

#[test]
fn units_may_differ_from_cell_to_cell() {
    let plain = worked(&study("25.4 12.7\n6.35 6.35", 1, 2));
    let mixed = worked(&study("1in 1.27cm\n1/4in 6.35", 1, 2));
    assert_eq!(plain.grid.cells, mixed.grid.cells);
}

/// Nine cells that repeat within 0.1 mm and one of 5 mm: a slip of the fingers.
/// Neither order nor names nor ids say anything of readings.
#[test]
fn order_names_and_ids_change_no_figure() {
    let plain = study(AIAG, 3, 3);
    let mut other = plain.clone();
    other.parts.reverse();
    other.people.rotate_left(1);
    other.people[0].name = "Somebody".to_owned();
    let renamed = |place: Place| Place {
        part: place.part + 70,
        person: place.person * 1000,
        ..place
    };
    let readings = other.readings.into_iter();
    other.readings = readings.map(|(at, text)| (renamed(at), text)).collect();
    other.parts.iter_mut().for_each(|part| part.id += 70);
    other.people.iter_mut().for_each(|person| person.id *= 1000);
    assert_eq!(other.check(), Ok(()));
    let (one, two) = (worked(&plain), worked(&other));
    let (own, same) = (
        one.by_variance.unwrap().deviations,
        two.by_variance.unwrap().deviations,
    );
    close(own.repeatability, same.repeatability, 1e-9);
    close(own.reproducibility, same.reproducibility, 1e-9);
    close(own.part, same.part, 1e-9);
    let repeats = |found: Worked| found.repeatability.unwrap().deviation;
    close(repeats(worked(&plain)), repeats(worked(&other)), 1e-12);
    assert_eq!(one.suspects.len(), two.suspects.len());
}

#[test]
fn a_slip_is_found_by_the_critical_range() {
    let mut table = "10 10.1\n".repeat(9);
    table.push_str("10 15");
    let found = worked(&study(&table, 1, 2)).suspects;
    assert_eq!(found.len(), 1);
    assert_eq!((found[0].part, found[0].person), (9, 0));
}

#[test]
fn readings_that_never_differ_make_none_suspect() {
    assert!(worked(&study("10 10\n20 20", 1, 2)).suspects.is_empty());
}

/// Each reading 0.1 mm more for each 10 mm: a slope of 0.01; biases by hand.
#[test]
fn bias_and_linearity_against_known_sizes() {
    let mut facts = study("10.1 10.1\n20.1 20.3\n30.3 30.3", 1, 2);
    let two: Worked = {
        for (part, size) in facts.parts.iter_mut().zip(["10", "2 cm"]) {
            part.reference = Some(size.to_owned());
        }
        worked(&facts)
    };
    assert!(matches!(two.linearity, Err(Lacking::TooFew { has: 2, .. })));
    facts.parts[2].reference = Some("30".to_owned());
    let found = worked(&facts);
    close(found.linearity.unwrap().line.slope, 0.01, 1e-9);
    let off = |at: usize| found.biases[at].found.clone().unwrap().unwrap();
    for (at, wanted) in [0.1, 0.2, 0.3].into_iter().enumerate() {
        close(off(at).of_readings.bias, wanted, 1e-9);
    }
    facts.parts[0].reference = Some("ten".to_owned());
    let wrong = &worked(&facts).biases[0];
    assert!(wrong.found.is_none() && wrong.known.is_err());
}

/// Standard error of the mean of {20.1, 20.3}: 0.1; with 0.24 stated 0.26, as 5, 12, 13; each
/// person's own deviation beside it. The stated one is known as it is, so the degrees of
/// freedom grow by (13/5)^4.
#[test]
fn the_uncertainty_of_a_known_size_counts() {
    let mut facts = study("20.1 20.3\n10 10", 2, 2);
    facts.readings = [
        (place(1, 1, 1), "20.1".to_owned()),
        (place(1, 2, 1), "20.3".to_owned()),
    ]
    .into();
    facts.parts[0].reference = Some("20".to_owned());
    facts.parts[0].uncertainty = Some("240 um".to_owned());
    assert!(worked(&facts).biases[0].known.is_err(), "no such unit");
    facts.parts[0].uncertainty = Some("0.024 cm".to_owned());
    let found = worked(&facts).biases.remove(0);
    close(found.by_person[0].unwrap(), 0.1, 1e-9);
    close(found.by_person[1].unwrap(), 0.3, 1e-9);
    let own = found.found.unwrap().unwrap();
    close(own.of_readings.standard.standard, 0.1, 1e-9);
    close(own.combined.standard, 0.26, 1e-9);
    close(own.combined.freedom, 2.6f64.powi(4), 1e-6);
    facts.parts[0].uncertainty = Some("-1".to_owned());
    assert!(worked(&facts).biases[0].known.is_err());
}

/// An instrument that is set wrong shows less than nothing near zero.
#[test]
fn readings_below_nothing_count_and_are_told() {
    let found = worked(&study("-0.02 0.02\n10 10", 1, 2));
    assert_eq!(found.grid.below, [place(1, 1, 1)]);
    close(found.cells[0][0][0], -0.02, 1e-12);
}

/// Squares by hand as above: the root of 5; rounded up, and in the unit of the study.
#[test]
fn an_instrument_takes_the_repeatability_rounded_up() {
    let facts = study("10 12\n20 24\n30 30", 1, 2);
    let found = worked(&facts);
    close(
        found.repeatability.clone().unwrap().deviation,
        (10f64 / 3.0).sqrt(),
        1e-12,
    );
    assert_eq!(found.repeatability_text().as_deref(), Some("1.9 mm"));
    for (table, wanted) in [
        ("10 10.2", Some("0.15 mm")),
        ("10 12", Some("1.5 mm")),
        ("10 24", Some("9.9 mm")),
        ("10 10.0001", Some("0.000071 mm")),
        ("10 10", None),
    ] {
        let found = worked(&study(table, 1, 2)).repeatability_text();
        assert_eq!(found.as_deref(), wanted, "{table}");
    }
    let mut inches = study("1 1.002", 1, 2);
    inches.unit = Unit::Inch64;
    assert_eq!(
        worked(&inches).repeatability_text().as_deref(),
        Some("0.0015 in")
    );
    let taken = taken(&facts, "1.9 mm".to_owned());
    let once = taken.over(&caliper());
    assert_eq!(once.repeatability.as_deref(), Some("1.9 mm"));
    assert_eq!(
        once.source,
        "certificate of March 2026; repeatability: study of 2026-03-02, 3 parts, 1 person, \
         2 trials"
    );
    assert_eq!(once.half_width, caliper().half_width);
    assert_eq!(
        taken.over(&once),
        once,
        "a second time its words are replaced"
    );
    assert!(once.read("caliper").is_ok());
}
