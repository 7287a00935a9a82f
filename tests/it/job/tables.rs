//! Marks as tables, as the page asks for them and the worker makes them, read by programs
//! that are not ours.

use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use evenshod::command::Command;
use evenshod::job::{Job, MadeTable, Outcome, State, TableFormat};
use evenshod::present::Rubrics;
use evenshod::present::paper_files::{
    FileState, PapersWanted, Says, document_wanted, file_state, sheet_wanted, sitting_wanted,
};
use evenshod::present::table_files::{table_base, tables_job};
use evenshod::records::{Layout, Ledger, MarkingId, NamedColumn};
use evenshod::worker::perform;

use crate::demo::sample::demo;
use crate::output::csv::read;
use crate::output::xlsx::{Cell, open};
use crate::records::sample::{after, day, rename, stamp};
use crate::sheet::sample::{sealed_bar_shoe, sheet};

const LONG: TableFormat = TableFormat::Csv(Layout::Long);
const WIDE: TableFormat = TableFormat::Csv(Layout::Wide);

fn one(ledger: &Ledger, marking: MarkingId) -> Option<PapersWanted> {
    sheet_wanted(ledger, &Rubrics::default(), marking)
}

fn markings(wanted: &PapersWanted) -> &[MarkingId] {
    match &wanted.says {
        Says::Sheets(markings) => markings,
        Says::Documents(_) => panic!("no sheets"),
    }
}

fn made(ledger: &Ledger, wanted: &PapersWanted, format: TableFormat) -> Result<MadeTable, String> {
    let (_, job) = tables_job(ledger, wanted, format).unwrap();
    match perform(&job, &mut |_| {})? {
        Outcome::Tables(made) => Ok(made),
        other => panic!("{other:?}"),
    }
}

fn bytes(ledger: &Ledger, wanted: &PapersWanted, format: TableFormat) -> Vec<u8> {
    let made = made(ledger, wanted, format).unwrap();
    STANDARD.decode(made.data).unwrap()
}

fn csv(ledger: &Ledger, wanted: &PapersWanted, format: TableFormat) -> Vec<Vec<String>> {
    read(&String::from_utf8(bytes(ledger, wanted, format)).unwrap())
}

/// The marking as CSV, a row a criterion; `None` where it is not handed over.
pub fn csv_of(ledger: &Ledger, marking: MarkingId) -> Option<String> {
    let bytes = bytes(ledger, &one(ledger, marking)?, LONG);
    Some(String::from_utf8(bytes).unwrap())
}

/// The sitting of the demo with the most sealed pieces.
fn largest() -> PapersWanted {
    let sittings = demo().sittings();
    let wanted = sittings.filter_map(|sitting| sitting_wanted(demo(), sitting.id));
    wanted.max_by_key(|wanted| markings(wanted).len()).unwrap()
}

fn column(table: &[Vec<String>], name: &str) -> Vec<String> {
    let at = table[0].iter().position(|column| column == name).unwrap();
    table[1..].iter().map(|row| row[at].clone()).collect()
}

fn named(columns: &[(&str, &str)]) -> Vec<NamedColumn> {
    let named = columns.iter().map(|(key, name)| NamedColumn {
        key: (*key).to_owned(),
        name: (*name).to_owned(),
    });
    named.collect()
}

fn with_columns(ledger: &Ledger, layout: Layout, columns: &[(&str, &str)]) -> Ledger {
    let columns = named(columns);
    let command = Command::SetColumns { layout, columns };
    after(ledger, command, &stamp(90)).0
}

#[test]
fn a_sitting_is_as_many_rows_as_it_has_markings_and_criteria() {
    let wanted = largest();
    let wide = csv(demo(), &wanted, WIDE);
    assert_eq!(wide.len(), markings(&wanted).len() + 1);
    let ids: Vec<String> = markings(&wanted).iter().map(ToString::to_string).collect();
    assert_eq!(column(&wide, "marking_id"), ids);
    let long = csv(demo(), &wanted, LONG);
    let mut seen = column(&long, "marking_id");
    seen.dedup();
    assert_eq!(seen, ids);
    // Every mark of the long table stands in the wide one too.
    for row in &long[1..] {
        let at = |name: &str| &row[long[0].iter().position(|one| one == name).unwrap()];
        let of = ids.iter().position(|id| id == at("marking_id")).unwrap();
        let mark = column(&wide, &format!("marks.{}", at("criterion_id")));
        assert_eq!(&mark[of], at("marks"), "{row:?}");
    }
}

#[test]
fn own_columns_are_left_out_renamed_and_in_another_order() {
    let (ledger, marking) = sealed_bar_shoe();
    let wanted = one(&ledger, marking).unwrap();
    let columns = [
        ("award", "Outcome"),
        ("marks.weld", "Q1"),
        ("learner", "=Candidate"),
        ("marks", "Mark *"),
        ("marks.of-another", "Not here"),
    ];
    let ledger = with_columns(&ledger, Layout::Wide, &columns);
    let wide = csv(&ledger, &wanted, WIDE);
    // A heading that a spreadsheet would run has an apostrophe, as every text.
    assert_eq!(
        wide[0][..4],
        ["Outcome", "Q1", "'=Candidate", "Mark toe-bend"]
    );
    assert_eq!(wide[1][..3], ["pass", "0", "Ada Smith"]);
    assert!(!wide[0].contains(&"Mark weld".to_owned()), "it has its own");
    assert_eq!(column(&wide, "Not here"), [""]);
    // The long table keeps its own.
    assert_eq!(csv(&ledger, &wanted, LONG)[0], Layout::Long.keys());
    let ledger = with_columns(&ledger, Layout::Wide, &[]);
    assert_eq!(csv(&ledger, &wanted, WIDE)[0][0], "piece_id");
    let ledger = with_columns(
        &ledger,
        Layout::Long,
        &[("comment", "Said"), ("marks", "Marks")],
    );
    assert_eq!(csv(&ledger, &wanted, LONG)[0], ["Said", "Marks"]);
}

/// Two names that differ as they are kept can come to one where `*` is filled in.
#[test]
fn two_columns_of_one_name_are_refused_with_what_to_do() {
    let (ledger, marking) = sealed_bar_shoe();
    let wanted = one(&ledger, marking).unwrap();
    let columns = [("learner", "Mark weld"), ("marks", "Mark *")];
    let ledger = with_columns(&ledger, Layout::Wide, &columns);
    let refused = made(&ledger, &wanted, WIDE).unwrap_err();
    assert!(
        refused.contains("`Mark weld`, learner and marks.weld") && refused.contains("Column names"),
        "{refused}"
    );
}

#[test]
fn a_workbook_has_typed_cells_frozen_heads_and_no_formula() {
    let (ledger, marking) = sealed_bar_shoe();
    let learner = ledger.learners().next().unwrap().id;
    let ledger = after(&ledger, rename(&ledger, learner, "=1+1"), &stamp(90)).0;
    let book = open(&bytes(
        &ledger,
        &one(&ledger, marking).unwrap(),
        TableFormat::Xlsx,
    ));
    let names: Vec<&str> = book
        .sheets
        .iter()
        .map(|sheet| sheet.name.as_str())
        .collect();
    assert_eq!(names, ["Marks", "Readings", "Totals", "Rubric", "About"]);
    assert!(
        book.title.starts_with("Straight bar shoe"),
        "{}",
        book.title
    );
    assert_eq!(book.language, "en-GB");
    for sheet in &book.sheets {
        assert_eq!(sheet.frozen, "B2", "{}", sheet.name);
        assert!(sheet.filter.starts_with("A1:"), "{}", sheet.name);
        assert!(sheet.is_head_bold, "{}", sheet.name);
        assert_eq!(sheet.formulas, 0, "{}", sheet.name);
        assert!(sheet.rows.len() > 1, "{}", sheet.name);
    }
    let marks = &book.sheets[0];
    let weld = marks.row("Criterion id", "weld");
    assert_eq!(weld("Learner"), Cell::text("=1+1"));
    assert_eq!(weld("Marks"), Cell::number(0.0));
    assert_eq!(weld("Comment"), Cell::text("Scarf too short."));
    assert_eq!(weld("Day"), Cell::date("2026-11-25T00:00:00"));
    let Cell { value, .. } = weld("Effect");
    assert!(
        value.starts_with("stop set aside by Chief Examiner"),
        "{value}"
    );
    assert_eq!(
        marks.row("Criterion id", "outline")("Marks"),
        Cell::number(4.5)
    );
    assert_eq!(
        marks.row("Criterion id", "branches")("Entered"),
        Cell::text("left 62,4 mm; right 64.8 mm")
    );

    let readings = &book.sheets[1];
    let width = readings.row("Reading id", "width");
    assert_eq!(width("Typed"), Cell::text("5 1/4"));
    assert_eq!(width("Unit typed"), Cell::text("in"));
    assert_eq!(width("Value"), Cell::number(133.35));
    assert_eq!(width("Unit"), Cell::text("mm"));
    assert_eq!(width("Standard uncertainty").kind, "n");
    let gap = readings.row("Reading id", "bar-straight");
    assert_eq!(
        (gap("From"), gap("To")),
        (Cell::number(0.6), Cell::number(0.7))
    );
    assert_eq!(gap("Value"), Cell::none());
    assert_eq!(
        readings.row("Reading id", "bar-width")("Typed"),
        Cell::text("within")
    );
    assert_eq!(
        readings.row("Reading id", "time")("Value"),
        Cell::number(66.0)
    );

    let total = book.sheets[2].row("Marking id", &marking.to_string());
    assert_eq!(total("Total"), Cell::number(67.0));
    assert_eq!(total("Award"), Cell::text("Pass"));
    assert_eq!(total("Award code"), Cell::text("pass"));
    // The clock stood for four minutes.
    assert_eq!(total("Time (min)"), Cell::number(62.0));
    assert_eq!(total("Heats against the plan"), Cell::number(10.0));
    assert_eq!(total("Sealed").kind, "d");
    assert_eq!(
        total("On the whole"),
        Cell::text("Sound work.\nMind the fire.")
    );
}

#[test]
fn a_workbook_of_a_sitting_holds_all_of_it_and_is_the_same_each_time() {
    let wanted = largest();
    let first = bytes(demo(), &wanted, TableFormat::Xlsx);
    assert_eq!(first, bytes(demo(), &wanted, TableFormat::Xlsx));
    let book = open(&first);
    let long = csv(demo(), &wanted, LONG);
    assert_eq!(book.sheets[0].rows.len(), long.len());
    assert_eq!(book.sheets[2].rows.len(), markings(&wanted).len() + 1);
    assert_eq!(book.title, wanted.title);
    // Every mark is the number of the long table.
    let marks = book.sheets[0].column("Marks");
    for (cell, expect) in marks.iter().zip(column(&long, "marks")) {
        match expect.parse::<f64>() {
            Ok(number) => assert_eq!(**cell, Cell::number(number)),
            Err(_) => assert_eq!(**cell, Cell::none()),
        }
    }
}

#[test]
fn how_a_table_stands_is_said_in_words() {
    let text = |state: Option<State>| match file_state(state.as_ref()) {
        FileState::Busy { text, .. } => text.to_owned(),
        FileState::None(text) | FileState::Ready { text, .. } => text,
    };
    let (ledger, marking) = sealed_bar_shoe();
    let wanted = one(&ledger, marking).unwrap();
    let done = |made: MadeTable| Some(State::Done(std::sync::Arc::new(Outcome::Tables(made))));
    let made = made(&ledger, &wanted, WIDE).unwrap();
    assert_eq!(text(done(made.clone())), "1 marking.");
    let broken = MadeTable {
        data: "§".to_owned(),
        ..made
    };
    assert!(text(done(broken)).contains("Reload the page"));
    let document = document_wanted(day(), "card", sheet(&ledger, marking));
    assert!(tables_job(&ledger, &document, WIDE).is_err(), "no marks");
    assert_eq!(table_base(&wanted, WIDE), format!("{}_wide", wanted.base));
}

#[test]
fn what_is_lost_is_an_answer_in_words() {
    let (ledger, marking) = sealed_bar_shoe();
    let wanted = one(&ledger, marking).unwrap();
    let (_, job) = tables_job(&ledger, &wanted, LONG).unwrap();
    let Job::Tables(mut tables) = job else {
        panic!("another job")
    };
    tables
        .records
        .retain(|text| !text.contains("\"kind\":\"rubric\""));
    let lost = perform(&Job::Tables(tables), &mut |_| {}).unwrap_err();
    assert!(
        lost.ends_with("is no longer here; reload the page"),
        "{lost}"
    );
}
