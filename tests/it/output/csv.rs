//! A marking written as CSV and read again.

use evenshod::output::csv::{guarded, unguarded, write};
use evenshod::sheet::{Field, Rows};
use proptest::prelude::*;

use crate::records::sample::comment;
use crate::sheet::sample::{long, look, performed, sealed_bar_shoe, whole_bar_shoe};

/// Every record of a text, read by the csv crate.
pub fn read(text: &str) -> Vec<Vec<String>> {
    let mut reader = csv::ReaderBuilder::new()
        .has_headers(false)
        .from_reader(text.as_bytes());
    let records = reader.records().map(|record| record.unwrap());
    records
        .map(|record| record.iter().map(str::to_owned).collect())
        .collect()
}

/// Rows of texts under columns `a`, `b`, ….
pub fn texts(rows: &[&[&str]]) -> Rows {
    let width = rows.first().map_or(1, |row| row.len());
    let columns = ["a", "b", "c", "d"].into_iter().take(width);
    let row = |row: &&[&str]| {
        row.iter()
            .map(|text| Field::Text((*text).to_owned()))
            .collect()
    };
    Rows {
        columns: columns.map(str::to_owned).collect(),
        rows: rows.iter().map(row).collect(),
    }
}

#[test]
fn a_sealed_marking_reads_back_field_for_field() {
    let (ledger, marking) = sealed_bar_shoe();
    let rows = look(&ledger, marking, long);
    let text = write(&rows).unwrap();
    assert!(!text.starts_with('\u{feff}'));
    assert!(text.ends_with("\r\n"));
    let read = read(&text);
    assert_eq!(read[0], rows.columns);
    assert_eq!(read.len(), rows.rows.len() + 1);
    for (read, row) in read[1..].iter().zip(&rows.rows) {
        for (read, field) in read.iter().zip(row) {
            let plain = matches!(field, Field::Text(_));
            let read = if plain { unguarded(read) } else { read };
            assert_eq!(read, field.words());
        }
    }
}

#[test]
fn a_reading_below_zero_is_a_number_and_a_formula_is_text() {
    let (ledger, marking) = whole_bar_shoe();
    let attack = "=HYPERLINK(\"http://example.org\";\"see\")";
    let ledger = performed(ledger, vec![comment(marking, Some("bar-square"), attack)]);
    let text = write(&look(&ledger, marking, long)).unwrap();
    let read = read(&text);
    let at = |name: &str| read[0].iter().position(|column| column == name).unwrap();
    let row = read
        .iter()
        .find(|row| row[at("criterion_id")] == "bar-square")
        .unwrap();
    assert_eq!(row[at("reading")], "-1.5");
    assert_eq!(row[at("value")], "-1.5");
    assert_eq!(row[at("comment")], format!("'{attack}"));
}

#[test]
fn a_row_of_another_width_is_refused() {
    let mut rows = texts(&[&["x", "y"]]);
    rows.rows[0].pop();
    assert!(write(&rows).is_err());
}

/// Texts with what is hard in them more often than chance has it.
fn any_text() -> impl Strategy<Value = String> {
    let hard = "[=+@＝＋－＠'\",;\t\r\n −\\-0-9a-zäß漢😀\u{202e}\u{0}]{0,12}";
    prop_oneof![hard, any::<String>()]
}

proptest! {
    #[test]
    fn any_texts_come_back_save_for_the_apostrophe(
        rows in prop::collection::vec(prop::collection::vec(any_text(), 3), 0..6)
    ) {
        let cells: Vec<Vec<&str>> = rows
            .iter()
            .map(|row| row.iter().map(String::as_str).collect())
            .collect();
        let slices: Vec<&[&str]> = cells.iter().map(Vec::as_slice).collect();
        let mut table = texts(&slices);
        table.columns = ["a", "b", "c"].map(str::to_owned).to_vec();
        let read = read(&write(&table).unwrap());
        prop_assert_eq!(read.len(), rows.len() + 1);
        for (read, row) in read[1..].iter().zip(&rows) {
            for (read, text) in read.iter().zip(row) {
                prop_assert_eq!(read, &guarded(text).into_owned());
                let began_guarded = unguarded(text) != text;
                prop_assert!(began_guarded || unguarded(read) == text);
            }
        }
    }

    #[test]
    fn nothing_that_a_spreadsheet_runs_is_left(text in any_text()) {
        let field = guarded(&text);
        let first = field.chars().next();
        let runs = first.is_some_and(|first| "=+-@\t\r\n＝＋－＠".contains(first));
        let is_number = field.parse::<f64>().is_ok();
        prop_assert!(!runs || is_number, "{field:?}");
    }
}
