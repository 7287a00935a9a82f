//! Files of a piece that asks for much, or says much.

use std::fmt::Write as _;

use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use evenshod::command::{Command, Edit};
use evenshod::job::{Form, Made, MadeTable, Outcome, TableFormat};
use evenshod::output::pdf::{Paper, checked_pdf_of_many};
use evenshod::present::Rubrics;
use evenshod::present::mark_sheet::blank_of_marking;
use evenshod::present::paper_files::{papers_job, sheet_wanted};
use evenshod::present::table_files::tables_job;
use evenshod::records::{Layout, Ledger, MarkingId};
use evenshod::rubric::read_rubric;
use evenshod::worker::perform;

use crate::output::csv::read;
use crate::output::xlsx::open;
use crate::records::sample::{named, seal};
use crate::sheet::sample::{begun, performed, sealed_bar_shoe};

const CRITERIA: usize = 300;

/// A rubric of so many criteria by eye.
fn text(criteria: usize) -> String {
    let mut text = r#"schema = 1
id = "many"
version = 1
title = "Many"
award = { pass = "65 %" }
[piece]
kind = "straight bar"
stock = { width = "3/4 in", thickness = "3/8 in" }
finished = { width = "129 mm", length = "134 mm" }
bar = { width = "20 mm", gap = "40 mm" }
"#
    .to_owned();
    if criteria > 0 {
        text.push_str("[[sections]]\nid = \"all\"\nname = \"All\"\n");
    }
    for number in 0..criteria {
        write!(
            text,
            "[[sections.criteria]]\nid = \"c{number}\"\nname = \"Criterion {number}\"\n\
             kind = \"judged\"\nnumbers = {{ least = 0, most = 1, step = 0.5 }}\n"
        )
        .unwrap();
    }
    text
}

/// A sealed piece of [`CRITERIA`] criteria, with a comment of some ten pages.
fn sealed() -> (Ledger, MarkingId) {
    let (ledger, marking) = begun(&text(CRITERIA), named("Ada Smith"));
    let level = |number: usize| Edit::SetLevel {
        entry: format!("c{number}"),
        level: Some("0.5".to_owned()),
    };
    let comment = Edit::SetComment {
        entry: None,
        comment: Some("The toe wants more heat, and less haste. ".repeat(1300)),
    };
    let edits = (0..CRITERIA).map(level).chain([comment]);
    let commands = edits.map(|edit| Command::edit(marking, edit));
    let commands = commands.chain([seal(marking)]).collect();
    (performed(ledger, commands), marking)
}

fn paper(ledger: &Ledger, marking: MarkingId) -> Made {
    let wanted = sheet_wanted(ledger, &Rubrics::default(), marking).unwrap();
    let (_, job) = papers_job(ledger, wanted, Vec::new(), Form::default()).unwrap();
    match perform(&job, &mut |_| {}) {
        Ok(Outcome::Papers(made)) => made,
        other => panic!("{other:?}"),
    }
}

fn table(ledger: &Ledger, marking: MarkingId, format: TableFormat) -> MadeTable {
    let wanted = sheet_wanted(ledger, &Rubrics::default(), marking).unwrap();
    let (_, job) = tables_job(ledger, &wanted, format).unwrap();
    match perform(&job, &mut |_| {}) {
        Ok(Outcome::Tables(made)) => made,
        other => panic!("{other:?}"),
    }
}

#[test]
fn three_hundred_criteria_and_a_comment_of_ten_pages_go_into_every_file() {
    let (ledger, marking) = sealed();
    let made = paper(&ledger, marking);
    assert!(made.pages > 10, "{} pages", made.pages);
    let wide = table(&ledger, marking, TableFormat::Csv(Layout::Wide));
    let wide = String::from_utf8(STANDARD.decode(wide.data).unwrap()).unwrap();
    let wide = read(&wide);
    assert_eq!(wide.len(), 2);
    assert!(wide[0].len() > CRITERIA);
    let long = table(&ledger, marking, TableFormat::Csv(Layout::Long));
    let long = String::from_utf8(STANDARD.decode(long.data).unwrap()).unwrap();
    let rows = read(&long);
    let criteria = rows
        .iter()
        .flatten()
        .filter(|cell| cell.starts_with("Criterion "));
    assert!(criteria.count() >= CRITERIA);
    let book = table(&ledger, marking, TableFormat::Xlsx);
    let book = open(&STANDARD.decode(book.data).unwrap());
    let marks = book.sheets.iter().find(|sheet| sheet.name == "Marks");
    assert_eq!(marks.unwrap().rows.len(), CRITERIA + 1);
    let blank = blank_of_marking(&ledger, &Rubrics::default(), marking).unwrap();
    checked_pdf_of_many([&blank], Paper::A4, "Blank", "en-GB").unwrap();
}

/// A rubric that asks for nothing is refused before anything is marked by it.
#[test]
fn a_rubric_of_no_criteria_gives_no_files() {
    let checked = read_rubric(&text(0));
    assert!(checked.rubric.is_none());
    let why: Vec<String> = checked.errors().map(ToString::to_string).collect();
    assert!(why.iter().any(|why| why.contains("section")), "{why:?}");
    // Nor does a marking whose rubric is lost.
    let (ledger, marking) = sealed_bar_shoe();
    let without = ledger
        .records()
        .filter(|record| record.kind() != evenshod::records::Kind::Rubric);
    let without = Ledger::of(without);
    assert!(sheet_wanted(&without, &Rubrics::default(), marking).is_none());
}
