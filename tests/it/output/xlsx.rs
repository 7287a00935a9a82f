//! Workbooks, read by openpyxl (version 3.1.5), which scripts/check installs.

use std::io::Write as _;
use std::process::{Command, Stdio};

use evenshod::output::xlsx::write;
use evenshod::records::Day;
use evenshod::sheet::{Field, Rows, Workbook, WorkbookSheet};
use proptest::prelude::*;
use serde::Deserialize;

/// What openpyxl reads of a file.
#[derive(Debug, Deserialize)]
pub struct Book {
    pub title: String,
    pub language: String,
    pub sheets: Vec<Sheet>,
}

#[derive(Debug, Deserialize)]
pub struct Sheet {
    pub name: String,
    pub frozen: String,
    pub filter: String,
    pub is_head_bold: bool,
    pub formulas: usize,
    pub rows: Vec<Vec<Cell>>,
}

/// A cell: openpyxl's word for its type, and what it holds as text.
#[derive(Debug, Clone, PartialEq, Deserialize)]
pub struct Cell {
    pub kind: String,
    pub value: String,
}

impl Cell {
    fn of(kind: &str, value: &str) -> Self {
        Self {
            kind: kind.to_owned(),
            value: value.to_owned(),
        }
    }

    pub fn text(value: &str) -> Self {
        Self::of("s", value)
    }

    pub fn number(value: f64) -> Self {
        Self::of("n", &value.to_string())
    }

    pub fn date(value: &str) -> Self {
        Self::of("d", value)
    }

    pub fn none() -> Self {
        Self::of("n", "")
    }
}

impl Sheet {
    fn at(&self, name: &str) -> usize {
        let mut heads = self.rows[0].iter();
        let at = heads.position(|head| head.value == name);
        at.unwrap_or_else(|| panic!("no {name} in {:?}", self.rows[0]))
    }

    /// The cells of a column under its head.
    pub fn column(&self, name: &str) -> Vec<&Cell> {
        let at = self.at(name);
        self.rows[1..].iter().map(|row| &row[at]).collect()
    }

    /// The first row that has this text in this column, to be asked by column.
    pub fn row<'a>(&'a self, column: &str, text: &str) -> impl Fn(&str) -> Cell + 'a {
        let at = self.at(column);
        let row = self.rows.iter().find(|row| row[at].value == text);
        let row = row.unwrap_or_else(|| panic!("no {text} under {column}"));
        move |name| row[self.at(name)].clone()
    }
}

/// A text as openpyxl gives it: it leaves signs that XML has no place for as the format
/// writes them, `_xHHHH_` (ISO/IEC 29500-1, 22.9.2.19).
fn as_read(text: &str) -> String {
    let letters = text.chars().map(|letter| match letter {
        '\t' | '\n' => letter.to_string(),
        '\0'..='\u{1f}' | '\u{fffe}' | '\u{ffff}' => format!("_x{:04X}_", u32::from(letter)),
        _ => letter.to_string(),
    });
    letters.collect()
}

/// Numbers as Rust prints them; a cell without anything is an empty number, as openpyxl has it.
const READ: &str = "import datetime, io, json, sys
import openpyxl
book = openpyxl.load_workbook(io.BytesIO(sys.stdin.buffer.read()))
def cell(one):
    value = one.value
    if value is None: value = ''
    elif isinstance(value, datetime.datetime): value = value.isoformat()
    elif isinstance(value, (int, float)): value = repr(int(value) if value == int(value) else value)
    return {'kind': one.data_type, 'value': value}
custom = {prop.name: prop.value for prop in book.custom_doc_props.props}
json.dump({'title': book.properties.title or '', 'language': custom.get('Language', ''),
    'sheets': [{'name': sheet.title, 'frozen': sheet.freeze_panes or '',
        'filter': sheet.auto_filter.ref or '',
        'is_head_bold': all(one.font.bold for one in sheet[1]),
        'formulas': sum(one.data_type == 'f' for row in sheet.rows for one in row),
        'rows': [[cell(one) for one in row] for row in sheet.rows]} for sheet in book]}, sys.stdout)";

/// Reads a workbook.
pub fn open(bytes: &[u8]) -> Book {
    let python = concat!(env!("CARGO_MANIFEST_DIR"), "/.tools/python/bin/python3");
    let mut reader = Command::new(python)
        .args(["-c", READ])
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .unwrap_or_else(|error| {
            panic!("{python} could not be run: {error}; run scripts/check, which sets it up")
        });
    reader.stdin.take().unwrap().write_all(bytes).unwrap();
    let read = reader.wait_with_output().unwrap();
    assert!(read.status.success());
    serde_json::from_slice(&read.stdout).unwrap()
}

fn book(rows: Vec<Vec<Field>>) -> Book {
    let width = rows.first().map_or(1, Vec::len);
    let rows = Rows {
        columns: (0..width).map(|at| format!("c{at}")).collect(),
        rows,
    };
    let workbook = Workbook {
        title: "<T&'\"> \u{1}".to_owned(),
        language: "en-GB",
        made: None,
        sheets: vec![WorkbookSheet {
            name: "Marks",
            rows,
        }],
    };
    open(&write(&workbook).unwrap())
}

fn text(text: impl Into<String>) -> Field {
    Field::Text(text.into())
}

#[test]
fn names_of_any_script_come_back_and_links_are_texts() {
    let hard = [
        "عربي",
        "王小明",
        "👨‍👩‍👧 Ada",
        "e\u{301}\u{323}",
        "\u{202e}rtl",
        " a ",
        "a\nb",
        "https://example.org",
        "mailto:a@b",
        "{=1+1}",
        "+1",
        "@x",
        "1e3",
        "_x0041_",
        "\u{1}\u{1f}\r\n\u{ffff}",
    ];
    let read = book(vec![hard.map(text).to_vec()]);
    for (cell, expect) in read.sheets[0].rows[1].iter().zip(hard) {
        assert_eq!(*cell, Cell::text(&as_read(expect)));
    }
}

/// Ten pages are some 30,000 letters; this is more, so that it passes what a cell holds.
#[test]
fn a_text_that_is_longer_than_a_cell_goes_on_in_a_sheet_of_its_own() {
    let long: String = "Scarf too short 漢😀. "
        .chars()
        .cycle()
        .take(90_000)
        .collect();
    let fits = "x".repeat(32_767);
    let read = book(vec![
        vec![text(fits.clone()), text("a")],
        vec![text("b"), text(long.clone())],
    ]);
    assert_eq!(read.sheets[0].rows[1][0], Cell::text(&fits));
    let head = read.sheets[0].rows[2][1]
        .value
        .strip_suffix(" … (goes on in Long texts)");
    let rest = &read.sheets[1];
    assert_eq!(rest.name, "Long texts");
    assert_eq!(
        rest.rows[1][..3],
        [Cell::text("Marks"), Cell::text("B3"), Cell::number(2.0)]
    );
    let parts: Vec<&str> = rest
        .column("Text")
        .iter()
        .map(|cell| cell.value.as_str())
        .collect();
    assert_eq!(format!("{}{}", head.unwrap(), parts.concat()), long);
}

#[test]
fn days_before_the_formats_calendar_are_texts() {
    let day = |year| Field::Day(Day::new(year, 3, 1).unwrap());
    let read = book(vec![vec![day(1899), day(1900), day(9999)]]);
    let kinds: Vec<&Cell> = read.sheets[0].rows[1].iter().collect();
    assert_eq!(*kinds[0], Cell::text("1899-03-01"));
    assert_eq!(*kinds[1], Cell::date("1900-03-01T00:00:00"));
    assert_eq!(*kinds[2], Cell::date("9999-03-01T00:00:00"));
}

#[test]
fn without_rows_there_are_heads() {
    let read = book(Vec::new());
    assert_eq!(read.sheets[0].rows, [[Cell::text("c0")]]);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(12))]
    #[test]
    fn any_texts_come_back(rows in prop::collection::vec(prop::collection::vec(any::<String>(), 3), 1..20)) {
        let fields = rows.iter().map(|row| row.iter().map(text).collect());
        let read = book(fields.collect());
        for (read, row) in read.sheets[0].rows[1..].iter().zip(&rows) {
            for (cell, text) in read.iter().zip(row) {
                let expect = if text.is_empty() { Cell::none() } else { Cell::text(&as_read(text)) };
                prop_assert_eq!(cell, &expect);
            }
        }
    }
}
