//! A document as plain text: UTF-8, lines ended by LF, one line for each paragraph, as
//! whatever reads it breaks lines itself.
//!
//! *What is said.* All that the page and the PDF say in words, in their order. Of a drawing
//! its title and what it says to those who do not see it; of a picture what it is. A row of
//! a table is its first cell, and each other one that is not empty on a line of its own
//! with the name of its column.

use crate::chart::Drawing;
use crate::sheet::{
    Block, Document, Fact, Group, Item, Notice, Pictured, Table, Verdict, Weight, with_above,
};

/// `document` as plain text.
pub fn text(document: &Document) -> String {
    let mut lines = Lines(String::new());
    lines.heading(1, &document.title);
    lines.line(&document.about);
    lines.blocks(&document.blocks);
    lines.0
}

struct Lines(String);

impl Lines {
    /// A line; none of an empty text, and an own line feed stays.
    fn line(&mut self, text: &str) {
        if !text.is_empty() {
            self.0.push_str(text);
            self.0.push('\n');
        }
    }

    fn labelled(&mut self, label: &str, text: &str) {
        if !text.is_empty() {
            self.line(&format!("{label}: {text}"));
        }
    }

    fn gap(&mut self) {
        if !self.0.is_empty() {
            self.0.push('\n');
        }
    }

    /// A heading, told by the line under it.
    fn heading(&mut self, level: u8, text: &str) {
        self.gap();
        self.line(text);
        let under = match level {
            1 => "=",
            2 => "-",
            _ => return,
        };
        self.line(&under.repeat(text.chars().count()));
    }

    fn blocks(&mut self, blocks: &[Block]) {
        for (above, block) in with_above(blocks) {
            self.block(above, block);
        }
    }

    fn block(&mut self, above: Option<&Block>, block: &Block) {
        match block {
            Block::Heading { level, text } => return self.heading(*level, text),
            Block::Table(table) => return self.table(table, table.repeats(above)),
            _ => self.gap(),
        }
        match block {
            Block::Paragraph(text) => self.line(text),
            Block::Drawings(drawings) => drawings.iter().for_each(|one| self.drawing(one)),
            Block::TrueSize { drawing, .. } => self.drawing(drawing),
            Block::Illustrated { drawing, beside } => {
                self.drawing(drawing);
                self.blocks(beside);
            }
            Block::Pictures(pictures) => pictures.iter().for_each(|one| self.picture(one)),
            Block::Facts(facts) | Block::Series(facts) => {
                facts.iter().for_each(|one| self.fact(one))
            }
            Block::Verdict(verdict) => self.verdict(verdict),
            Block::Notice(notice) => self.notice(notice),
            Block::Items(items) => items.iter().for_each(|one| self.item(one)),
            Block::Code { label, groups } => self.labelled(label, &groups.join(" ")),
            Block::Signatures(signs) => {
                for sign in signs {
                    self.line(&format!("{sign}: ______________________________"));
                }
            }
            Block::Heading { .. } | Block::Table(_) => {}
        }
    }

    fn drawing(&mut self, drawing: &Drawing) {
        self.labelled("Drawing", &drawing.title);
        self.line(&drawing.description);
    }

    fn picture(&mut self, picture: &Pictured) {
        self.labelled("Photo", &picture.alt);
        self.line(&picture.caption);
    }

    fn fact(&mut self, fact: &Fact) {
        self.labelled(&fact.label, &fact.value);
    }

    fn verdict(&mut self, verdict: &Verdict) {
        self.line(&verdict.award);
        self.line(&format!("{} {}", verdict.marks, verdict.out_of));
        self.line(&verdict.rest);
    }

    fn notice(&mut self, notice: &Notice) {
        let weight = match notice.weight {
            Weight::Info => "Note",
            Weight::Warn => "Warning",
            Weight::Stop => "Stop",
        };
        self.labelled(weight, &notice.text);
        for item in &notice.items {
            self.line(&format!("- {item}"));
        }
    }

    fn item(&mut self, item: &Item) {
        let mut lines = item.lines.iter();
        if item.lead.is_empty() {
            let first = lines.next().map_or("", String::as_str);
            self.line(&format!("- {first}"));
        } else {
            self.line(&format!("- {}", item.lead));
        }
        for line in lines {
            self.line(&format!("  {line}"));
        }
    }

    fn table(&mut self, table: &Table, repeats: bool) {
        if !repeats {
            self.heading(3, &table.caption);
        }
        for group in &table.groups {
            self.group(table, group);
        }
        if !table.foot.is_empty() {
            self.gap();
            let words = table.foot.iter().map(|cell| cell.text.as_str());
            let words: Vec<&str> = words.filter(|text| !text.is_empty()).collect();
            self.line(&words.join(" "));
        }
    }

    fn group(&mut self, table: &Table, group: &Group) {
        if !group.heading.is_empty() {
            self.heading(3, &group.heading);
        }
        for row in &group.rows {
            self.gap();
            let mut cells = row.iter().zip(&table.columns);
            if let Some((first, _)) = cells.next() {
                self.line(&first.text);
            }
            for (cell, column) in cells {
                if !cell.text.is_empty() {
                    self.line(&format!("  {}: {}", column.title, cell.text));
                }
            }
        }
    }
}
