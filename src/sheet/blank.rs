//! A mark sheet to fill in by hand: every field with its number, what is asked for, and
//! room to write.

use crate::marking::{Facts, mark_in};
use crate::quantity::Unit;
use crate::rubric::Rubric;

use super::aim::aim_words;
use super::document::{Block, Cell, CellRole, Document, Fact, Group, Item, Table, Weight, columns};
use super::scored::{heading, notice};
use super::seal::digest_block;
use super::specification::{piece_drawings, piece_facts};
use super::words::{FIRST_CAUTION, join};

/// What a sheet to fill in is made of.
#[derive(Debug)]
pub struct BlankSheet<'a> {
    /// The rubric.
    pub rubric: &'a Rubric,
    /// Digest of its text.
    pub digest: &'a str,
    /// What a bare number means on it.
    pub unit: Unit,
    /// What is known of the piece, by what it is: learner, ticket, date, examiner.
    pub known: [(&'static str, String); 4],
    /// Its fields.
    pub parts: Vec<BlankPart>,
}

/// Fields under one heading.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct BlankPart {
    /// The heading.
    pub name: String,
    /// The fields.
    pub fields: Vec<BlankField>,
}

/// A field to fill in.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct BlankField {
    /// Its number.
    pub number: u32,
    /// What it is about.
    pub name: String,
    /// The entry that is marked by it; `None` for what is measured for others.
    pub entry: Option<String>,
    /// What can be written.
    pub options: Vec<String>,
    /// The unit of what is written; may be empty.
    pub unit: &'static str,
}

/// How to fill it in.
const HOW: [&str; 6] = [
    "Write one answer in each box. A reading is a number in the unit that stands before the \
     box; repeats are set apart by semicolons, as in 10.2; 10.4.",
    "Where levels have numbers, write the number. Where faults have letters, write the \
     letters, one as often as the fault was seen.",
    "Write nm for a part that was not made, and na where that is offered and the criterion \
     does not apply. Where it cannot be measured, write cm, the marks that you give and the \
     reason, as in cm 1 heel bent after punching.",
    "A reading that a gauge decides is written under, within or over.",
    "Comments go on the back, each with the number that it is about; one on the whole has none.",
    "Typed in afterwards by these numbers, the sheet is marked by the program. The names of \
     who marked and who typed stand on the scored sheet. Keep this paper.",
];

/// The sheet to fill in by hand.
pub fn blank_sheet(sheet: &BlankSheet<'_>) -> Document {
    let rubric = sheet.rubric;
    let mut blocks = vec![
        Block::Table(who(sheet)),
        notice(Weight::Warn, FIRST_CAUTION, Vec::new()),
        Block::Facts(piece_facts(rubric, sheet.unit)),
    ];
    blocks.extend(piece_drawings(rubric, sheet.unit));
    blocks.push(heading("How to fill it in"));
    blocks.push(Block::Items(HOW.map(Item::plain).to_vec()));
    blocks.push(heading("Marks"));
    blocks.push(Block::Table(fields(sheet)));
    blocks.push(Block::Signatures(vec![
        "Examiner, date".to_owned(),
        "Typed in by, date".to_owned(),
    ]));
    blocks.push(Block::Facts(vec![Fact {
        label: "Rubric".into(),
        value: format!("{}, version {}", rubric.id, rubric.version),
    }]));
    blocks.push(digest_block("SHA-256 of the rubric", sheet.digest));
    Document {
        title: rubric.title.clone(),
        about: "Mark sheet to fill in by hand".to_owned(),
        language: "en-GB".into(),
        most_pages: None,
        blocks,
    }
}

/// Who and when, as far as that is known, with room for the rest.
fn who(sheet: &BlankSheet<'_>) -> Table {
    let heads = sheet
        .known
        .each_ref()
        .map(|(label, _)| (*label, CellRole::Blank));
    let cells = sheet.known.iter();
    let cells = cells.map(|(_, value)| Cell::new(CellRole::Blank, value.clone()));
    Table {
        caption: "The piece".to_owned(),
        columns: columns(&heads),
        groups: vec![Group {
            heading: String::new(),
            rows: vec![cells.collect()],
        }],
        foot: Vec::new(),
    }
}

fn fields(sheet: &BlankSheet<'_>) -> Table {
    let groups = sheet.parts.iter().map(|part| Group {
        heading: part.name.clone(),
        rows: part.fields.iter().map(|field| row(sheet, field)).collect(),
    });
    Table {
        caption: "Fields by number".to_owned(),
        columns: columns(&[
            ("Number and criterion", CellRole::Text),
            ("Asked for", CellRole::Text),
            ("Unit", CellRole::Quiet),
            ("Write here", CellRole::Blank),
        ]),
        groups: groups.collect(),
        foot: Vec::new(),
    }
}

fn row(sheet: &BlankSheet<'_>, field: &BlankField) -> Vec<Cell> {
    let options = field.options.join("; ");
    vec![
        Cell::text(format!("{}  {}", field.number, field.name)),
        Cell::text(join([asked(sheet, field), options], ". ")),
        Cell::new(CellRole::Quiet, field.unit),
        Cell::new(CellRole::Blank, ""),
    ]
}

/// What gives all marks, where that rests on no reading.
fn asked(sheet: &BlankSheet<'_>, field: &BlankField) -> String {
    let rubric = sheet.rubric;
    let Some(id) = &field.entry else {
        return String::new();
    };
    let entries = rubric.entries();
    let entry = entries.iter().find(|entry| entry.id == *id);
    let outcome = mark_in(rubric, &Facts::default(), sheet.unit);
    let found = entry.zip(outcome.criterion(id));
    found.map_or_else(String::new, |(entry, result)| {
        aim_words(rubric, entry, result, sheet.unit)
    })
}
