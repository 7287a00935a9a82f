use evenshod::chart::Drawing;
use evenshod::output::pdf::{Paper, Pdf, checked_pdf_of_many};
use evenshod::present::{Rubrics, sheet_page};
use evenshod::records::Role;
use evenshod::sheet::{
    Block, Cell, CellRole, Column, Document, Group, Item, Notice, Table, Weight, rubric_document,
    with_above,
};

use crate::demo::sample::demo;
use crate::sheet::sample::{bar_shoe_text, read};

pub const PAPERS: [Paper; 2] = [Paper::A4, Paper::Letter];

/// The document as a file that keeps the rules of PDF/UA-1 that can be checked.
pub fn checked(document: &Document, paper: Paper) -> Pdf {
    checked_pdf_of_many([document], paper, &document.title, &document.language).unwrap()
}

/// The sheet of the first bar shoe that the demo's first examiners sealed.
pub fn bar_shoe() -> Document {
    let ledger = demo();
    let mut sealed = ledger.markings().filter(|one| one.seal.is_some());
    let marking = sealed.find(|one| {
        let rubric = ledger.rubric(&one.rubric).unwrap();
        one.role == Role::First && rubric.rubric_id == "straight-bar-shoe"
    });
    let marking = marking.unwrap();
    let page = sheet_page(ledger, &Rubrics::default(), marking.piece, Some(marking.id));
    page.unwrap().document
}

/// The rubric of the bar shoe as people read it.
pub fn rubric() -> Document {
    let rubric = read(bar_shoe_text());
    rubric_document(&rubric, rubric.unit)
}

pub fn document(blocks: Vec<Block>) -> Document {
    Document {
        title: "Straight bar shoe".to_owned(),
        about: "Scored sheet".to_owned(),
        language: "en".into(),
        most_pages: None,
        blocks,
    }
}

pub fn heading(text: &str) -> Block {
    Block::Heading {
        level: 2,
        text: text.to_owned(),
    }
}

/// A drawing of nothing with words beside it.
pub fn illustrated(text: &str) -> Block {
    Block::Illustrated {
        drawing: Drawing {
            width: 100.0,
            height: 60.0,
            title: text.to_owned(),
            description: text.to_owned(),
            ..Drawing::default()
        },
        beside: vec![Block::Paragraph(text.to_owned())],
    }
}

/// A table of three columns with these cells in its first one.
pub fn table(names: impl IntoIterator<Item = String>) -> Block {
    let row = |name: String| {
        let marks = Cell {
            role: CellRole::Number,
            band: Some(3),
            text: "3 of 4".to_owned(),
            drawing: None,
        };
        let reason = "within 1.5 mm of what is asked for";
        vec![Cell::text(name), marks, Cell::new(CellRole::Quiet, reason)]
    };
    Block::Table(Table {
        caption: "Marks by criterion".to_owned(),
        columns: ["Criterion", "Marks", "Reason"]
            .into_iter()
            .zip([CellRole::Text, CellRole::Number, CellRole::Quiet])
            .map(|(title, role)| Column {
                title: title.into(),
                role,
            })
            .collect(),
        groups: vec![Group {
            heading: "Form".to_owned(),
            rows: names.into_iter().map(row).collect(),
        }],
        foot: vec![
            Cell::text("Total"),
            Cell::new(CellRole::Number, "80.5 of 100"),
            Cell::text(""),
        ],
    })
}

pub fn notice(weight: Weight, text: &str, items: &[&str]) -> Block {
    Block::Notice(Notice {
        weight,
        text: text.to_owned(),
        items: items.iter().map(|item| (*item).to_owned()).collect(),
    })
}

/// Every text of a document in the order in which it is read.
pub fn said(document: &Document) -> Vec<String> {
    let mut all = vec![document.title.clone(), document.about.clone()];
    all.extend(said_by(&document.blocks));
    all
}

fn said_by(blocks: &[Block]) -> Vec<String> {
    let mut all = Vec::new();
    for (above, block) in with_above(blocks) {
        match block {
            Block::Heading { text, .. } | Block::Paragraph(text) => all.push(text.clone()),
            Block::Drawings(drawings) => {
                all.extend(drawings.iter().map(|drawing| drawing.title.clone()));
            }
            Block::TrueSize { drawing, .. } => all.push(drawing.title.clone()),
            Block::Illustrated { drawing, beside } => {
                all.push(drawing.title.clone());
                all.extend(said_by(beside));
            }
            Block::Pictures(pictures) => {
                all.extend(pictures.iter().map(|picture| picture.caption.clone()));
            }
            Block::Facts(facts) | Block::Series(facts) => {
                for fact in facts {
                    all.extend([fact.label.to_string(), fact.value.clone()]);
                }
            }
            Block::Verdict(verdict) => all.extend([
                verdict.award.clone(),
                verdict.marks.clone(),
                verdict.out_of.clone(),
                verdict.rest.clone(),
            ]),
            Block::Notice(notice) => {
                all.push(notice.text.clone());
                all.extend(notice.items.iter().cloned());
            }
            Block::Table(table) => {
                let from = usize::from(table.repeats(above));
                all.extend(said_in(table).into_iter().skip(from));
            }
            Block::Items(items) => {
                for Item { lead, lines } in items {
                    all.push(lead.clone());
                    all.extend(lines.iter().cloned());
                }
            }
            Block::Code { label, groups } => {
                all.push(label.clone());
                all.extend(groups.iter().cloned());
            }
            Block::Signatures(signs) => all.extend(signs.iter().cloned()),
        }
    }
    all
}

fn said_in(table: &Table) -> Vec<String> {
    let mut all = vec![table.caption.clone()];
    all.extend(table.columns.iter().map(|column| column.title.to_string()));
    for group in &table.groups {
        all.push(group.heading.clone());
        let cells = group.rows.iter().flatten();
        all.extend(cells.map(|cell| cell.text.clone()));
    }
    all.extend(table.foot.iter().map(|cell| cell.text.clone()));
    all
}

/// Its words, without signs between them, as lines may break there.
pub fn words(texts: &[String]) -> Vec<String> {
    let words = texts
        .iter()
        .flat_map(|text| text.split(|c: char| !c.is_alphanumeric()));
    words
        .filter(|word| !word.is_empty())
        .map(str::to_owned)
        .collect()
}
