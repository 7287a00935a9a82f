//! A marking as rows.

use evenshod::sheet::{Field, Rows};

use super::sample::{begun_bar_shoe, long, look, sealed_bar_shoe, whole_bar_shoe};

fn field<'a>(rows: &'a Rows, criterion: &str, column: &str) -> &'a Field {
    let at = |name: &str| rows.columns.iter().position(|column| *column == name);
    let id = at("criterion_id").unwrap();
    let row = rows
        .rows
        .iter()
        .find(|row| row[id] == Field::Text(criterion.to_owned()));
    &row.unwrap()[at(column).unwrap()]
}

#[track_caller]
fn text(rows: &Rows, criterion: &str, column: &str, expect: &str) {
    let found = field(rows, criterion, column);
    assert!(!matches!(found, Field::Number(_)), "{criterion}, {column}");
    assert_eq!(found.words(), expect, "{criterion}, {column}");
}

#[track_caller]
fn number(rows: &Rows, criterion: &str, column: &str, expect: &str) {
    let found = field(rows, criterion, column);
    assert_eq!(
        *found,
        Field::Number(expect.to_owned()),
        "{criterion}, {column}"
    );
}

#[test]
fn there_is_one_row_a_criterion_and_all_are_as_wide_as_the_columns() {
    let (ledger, marking) = whole_bar_shoe();
    let rows = look(&ledger, marking, long);
    let count = look(&ledger, marking, |scored| scored.outcome.criteria.len());
    assert_eq!(rows.rows.len(), count);
    assert!(rows.rows.iter().all(|row| row.len() == rows.columns.len()));
}

#[test]
fn marks_are_exact_and_readings_as_typed() {
    let (ledger, marking) = sealed_bar_shoe();
    let rows = look(&ledger, marking, long);
    number(&rows, "outline", "marks_numerator", "9");
    number(&rows, "outline", "marks_denominator", "2");
    number(&rows, "outline", "marks", "4.5");
    number(&rows, "outline", "out_of", "6");
    text(&rows, "branches", "reading", "62,4; 64.8");
    text(&rows, "branches", "unit", "mm");
    number(&rows, "branches", "value", "-2.4");
    text(&rows, "width", "reading", "5 1/4");
    number(&rows, "width", "value", "133.35");
    text(&rows, "width", "value_unit", "mm");
    number(&rows, "bar-square", "value", "-1.5");
    text(&rows, "bar-square", "value_unit", "°");
    number(&rows, "fuller-depth", "value", "6.1");
    // The clock stood for four minutes.
    text(&rows, "time", "reading", "66 min");
    number(&rows, "time", "value", "62");
    text(&rows, "time", "value_unit", "min");
    text(
        &rows,
        "finish",
        "faults",
        "Hammer marks (2 times), Sharp edges",
    );
    text(&rows, "weld", "comment", "Scarf too short.");
    text(&rows, "weld", "learner", "Ada Smith");
    text(&rows, "weld", "date", "2026-11-25");
    text(&rows, "weld", "award", "pass");
    number(&rows, "weld", "total", "67");
    let digest = &ledger
        .marking(marking)
        .unwrap()
        .seal
        .as_ref()
        .unwrap()
        .digest;
    text(&rows, "weld", "marking_digest", digest);
}

#[test]
fn what_is_missing_has_no_marks_and_no_digest() {
    let (ledger, marking) = begun_bar_shoe();
    let rows = look(&ledger, marking, long);
    for column in [
        "marks",
        "marks_numerator",
        "value",
        "marking_digest",
        "sealed_at",
    ] {
        text(&rows, "width", column, "");
    }
    text(&rows, "width", "state", "missing");
    number(&rows, "width", "out_of", "4");
}
