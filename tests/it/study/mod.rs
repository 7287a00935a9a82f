//! Instrument studies from typed text to figures.

use evenshod::figures::Lacking;
use evenshod::quantity::Unit;
use evenshod::records::{Place, StudyFacts, StudyFault, StudyPart};
use evenshod::study::{Worked, worked};

/// Measurement Systems Analysis, 4th edition 2010 (AIAG), chapter III, with 10 added to each
/// reading, as a length is not negative: 10 parts, 3 people, 3 trials; a row is a part.
const AIAG: &str = "10.29 10.41 10.64 10.08 10.25 10.07 10.04 9.89 9.85
     9.44 9.32 9.42 9.53 8.78 9.32 8.62 8.87 9.04
     11.34 11.17 11.27 11.19 10.94 11.34 10.88 11.09 10.67
     10.47 10.5 10.64 10.01 11.03 10.2 10.14 10.2 10.11
     9.2 9.08 9.16 9.44 8.8 8.72 8.54 8.93 8.55
     10.02 9.89 9.79 9.8 10.22 10.06 9.71 9.33 9.51
     10.59 10.75 10.66 10.47 10.55 10.83 10.02 10.01 10.21
     9.69 9.8 9.83 9.37 10.08 9.66 9.54 9.44 9.51
     12.26 11.99 12.01 11.8 12.12 12.19 11.77 11.45 11.87
     8.64 8.75 8.69 8.32 8.38 8.5 8.51 8.23 7.84";

fn place(part: usize, operator: usize, trial: usize) -> Place {
    Place {
        part,
        operator,
        trial,
    }
}

fn study(table: &str, operators: usize, trials: usize) -> StudyFacts {
    let rows: Vec<&str> = table.lines().collect();
    let part = |name: String| StudyPart {
        name,
        ..StudyPart::default()
    };
    let mut facts = StudyFacts {
        name: "Spring".to_owned(),
        instrument: "caliper".to_owned(),
        day: "2026-03-02".parse().unwrap(),
        unit: Unit::Millimetre,
        parts: (1..=rows.len()).map(|at| part(at.to_string())).collect(),
        operators: (1..=operators).map(|at| at.to_string()).collect(),
        trials,
        readings: Default::default(),
        note: String::new(),
    };
    for (row, line) in rows.iter().enumerate() {
        for (at, text) in line.split_whitespace().enumerate() {
            let key = place(row, at / trials, at % trials).key();
            facts.readings.insert(key, text.to_owned());
        }
    }
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
    let gone = place(2, 0, 1);
    facts.readings.insert(gone.key(), " ".to_owned());
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
    let wrong = place(4, 1, 2);
    facts.readings.insert(wrong.key(), "tall".to_owned());
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
#[test]
fn a_slip_is_found_by_the_critical_range() {
    let mut table = "10 10.1\n".repeat(9);
    table.push_str("10 15");
    let found = worked(&study(&table, 1, 2)).suspects;
    assert_eq!(found.len(), 1);
    assert_eq!((found[0].part, found[0].operator), (9, 0));
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
    let biases = found.biases.iter().map(|own| own.bias.clone().unwrap());
    for (own, wanted) in biases.zip([0.1, 0.2, 0.3]) {
        close(own.unwrap().bias, wanted, 1e-9);
    }
    facts.parts[0].reference = Some("ten".to_owned());
    let wrong = &worked(&facts).biases[0];
    assert!(wrong.bias.is_none() && wrong.reference.is_err());
}

#[test]
fn limits_are_told() {
    let mut facts = study("10 11", 1, 2);
    assert_eq!(facts.check(), Ok(()));
    facts.trials = 11;
    assert_eq!(facts.check(), Err(StudyFault::Trials(11)));
    let said = facts.check().unwrap_err().to_string();
    assert_eq!(said, "trials: 11 of each; give 2 to 10");
    facts.operators = vec![String::new(); 9];
    assert_eq!(facts.check(), Err(StudyFault::Operators(9)));
    facts.parts.clear();
    assert_eq!(facts.check(), Err(StudyFault::Parts(0)));
}

#[test]
fn facts_outlive_the_program_as_json() {
    let facts = study(AIAG, 3, 3);
    let text = serde_json::to_string(&facts).unwrap();
    assert_eq!(serde_json::from_str::<StudyFacts>(&text).unwrap(), facts);
    assert_eq!(facts.reading(place(1, 0, 2)), Some("9.42"));
}
