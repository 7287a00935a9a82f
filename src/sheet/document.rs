use std::borrow::Cow;

use serde::{Deserialize, Serialize};

use crate::chart::Drawing;

/// A document without a format: what it says and in which order, never how it looks.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Document {
    /// Its title.
    pub title: String,
    /// What kind of document it is and how it stands, in a line under the title.
    pub about: String,
    /// The language that it is written in, as BCP 47 has it.
    pub language: Cow<'static, str>,
    /// How many pages it should have at most, where type a little smaller does that.
    pub most_pages: Option<usize>,
    /// Its parts in order.
    pub blocks: Vec<Block>,
}

/// One part of a document. Every text may hold what a person typed: it is text,
/// never markup, and may run right to left.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub enum Block {
    /// A heading; the title is level 1.
    Heading {
        /// 2 or 3.
        level: u8,
        /// What it says.
        text: String,
    },
    /// A paragraph.
    Paragraph(String),
    /// Drawings side by side.
    Drawings(Vec<Drawing>),
    /// A drawing with what is said of it beside it.
    Illustrated {
        /// The drawing.
        drawing: Drawing,
        /// What is said of it.
        beside: Vec<Block>,
    },
    /// A drawing of which a unit is a millimetre, at its true size.
    TrueSize {
        /// The drawing.
        drawing: Drawing,
        /// What becomes of it where the paper is too small.
        otherwise: Oversize,
    },
    /// Pictures side by side.
    Pictures(Vec<Pictured>),
    /// Short facts in pairs.
    Facts(Vec<Fact>),
    /// Facts one behind the other, in few lines.
    Series(Vec<Fact>),
    /// The award in large letters.
    Verdict(Verdict),
    /// Something that must not be overlooked.
    Notice(Notice),
    /// A table.
    Table(Table),
    /// A list.
    Items(Vec<Item>),
    /// A long code in groups that a person can compare.
    Code {
        /// What it is.
        label: String,
        /// Its groups in order; without the gaps they are the code.
        groups: Vec<String>,
    },
    /// Lines to sign on, each with what is written under it.
    Signatures(Vec<String>),
}

/// What becomes of a drawing at its true size where the paper is too small for it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub enum Oversize {
    /// It goes over several sheets that overlap, with register marks; each sheet bears check lines.
    Sheets,
    /// It is drawn smaller, and how much is said.
    Smaller,
    /// The same, and where it keeps its size it bears check lines. A page that is shown, and
    /// perhaps printed by a browser, draws them with it: what scales one scales the other.
    SmallerOrChecked,
}

/// A picture with what is written under it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Pictured {
    /// Digest of its bytes, which the document does not hold.
    pub digest: String,
    /// What it is, for who cannot see it.
    pub alt: String,
    /// What stands under it; may be empty.
    pub caption: String,
}

/// A label and its value.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Fact {
    /// What it is; some are names that people gave.
    pub label: Cow<'static, str>,
    /// What it is here.
    pub value: String,
}

/// The award with what decides it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Verdict {
    /// The award in a word or two.
    pub award: String,
    /// Marks given.
    pub marks: String,
    /// What they are of: `of 100`.
    pub out_of: String,
    /// The pass mark and how far from it.
    pub rest: String,
    /// The marks on a ruler.
    pub ruler: Drawing,
}

/// How much a notice weighs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub enum Weight {
    /// Good to know.
    Info,
    /// Somebody should look.
    Warn,
    /// It decides the award.
    Stop,
}

/// Something that must not be overlooked.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Notice {
    /// How much it weighs.
    pub weight: Weight,
    /// What it says.
    pub text: String,
    /// What it lists; may be empty.
    pub items: Vec<String>,
}

/// A list's item.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Item {
    /// What it is about, set apart; may be empty.
    pub lead: String,
    /// What it says, line by line.
    pub lines: Vec<String>,
}

impl Item {
    /// An item of one line without a lead.
    pub fn plain(text: impl Into<String>) -> Self {
        Self {
            lead: String::new(),
            lines: vec![text.into()],
        }
    }

    /// An item about `lead`; what was typed keeps its lines.
    pub fn about(lead: impl Into<String>, text: &str) -> Self {
        let lines = text.lines().map(str::trim_end);
        Self {
            lead: lead.into(),
            lines: lines
                .filter(|line| !line.is_empty())
                .map(str::to_owned)
                .collect(),
        }
    }
}

/// What a column or cell holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub enum CellRole {
    /// Text.
    Text,
    /// A number, right-aligned.
    Number,
    /// Text of less weight.
    Quiet,
    /// Nothing yet: room to write in by hand.
    Blank,
}

/// A cell.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Cell {
    /// What it holds.
    pub role: CellRole,
    /// Rank of the marks in it, 4 for all to 0 for none, shown as a sign of its own.
    pub band: Option<u8>,
    /// What it says.
    pub text: String,
    /// What stands under that; it shows nothing that the row does not say.
    pub drawing: Option<Drawing>,
}

impl Cell {
    /// A cell of this role.
    pub fn new(role: CellRole, text: impl Into<String>) -> Self {
        Self {
            role,
            band: None,
            text: text.into(),
            drawing: None,
        }
    }

    /// A cell with plain text.
    pub fn text(text: impl Into<String>) -> Self {
        Self::new(CellRole::Text, text)
    }
}

/// A column of a table.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Column {
    /// Its heading.
    pub title: Cow<'static, str>,
    /// What it holds.
    pub role: CellRole,
}

/// Columns with these headings.
pub(super) fn columns(columns: &[(&'static str, CellRole)]) -> Vec<Column> {
    let column = |(title, role): &(&'static str, CellRole)| Column {
        title: Cow::Borrowed(title),
        role: *role,
    };
    columns.iter().map(column).collect()
}

/// A column of text.
pub(super) fn text(title: impl Into<Cow<'static, str>>) -> Column {
    Column {
        title: title.into(),
        role: CellRole::Text,
    }
}

/// A column of numbers.
pub(super) fn number(title: impl Into<Cow<'static, str>>) -> Column {
    Column {
        title: title.into(),
        role: CellRole::Number,
    }
}

/// A cell with a number.
pub(super) fn figure(text: impl Into<String>) -> Cell {
    Cell::new(CellRole::Number, text)
}

/// A table of one group.
pub(super) fn plain_table(caption: String, columns: Vec<Column>, rows: Vec<Vec<Cell>>) -> Table {
    let group = Group {
        heading: String::new(),
        rows,
    };
    Table {
        caption,
        columns,
        groups: vec![group],
        foot: Vec::new(),
    }
}

/// Rows under one heading.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Group {
    /// The heading; may be empty.
    pub heading: String,
    /// The rows, as wide as the table; each one's first cell names it.
    pub rows: Vec<Vec<Cell>>,
}

/// A table.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Table {
    /// What it shows.
    pub caption: String,
    /// Its columns.
    pub columns: Vec<Column>,
    /// Its rows by group.
    pub groups: Vec<Group>,
    /// The row at its foot, as wide as the table; may be empty.
    pub foot: Vec<Cell>,
}

impl Table {
    /// Whether its caption only says what the heading right above it says: it still names
    /// the table, and is not shown again.
    pub fn repeats(&self, above: Option<&Block>) -> bool {
        matches!(above, Some(Block::Heading { text, .. }) if *text == self.caption)
    }
}

/// Blocks, each with the one above it.
pub fn with_above(blocks: &[Block]) -> impl Iterator<Item = (Option<&Block>, &Block)> {
    let above = std::iter::once(None).chain(blocks.iter().map(Some));
    above.zip(blocks)
}
