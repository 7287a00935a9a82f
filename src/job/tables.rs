use serde::{Deserialize, Serialize};

use crate::records::{Layout, MarkingId};

/// Marks that are wanted as a table, with all that they are made from.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Tables {
    /// What the file is called inside, where its format has a place for that.
    pub title: String,
    /// The records, each as JSON; the heads of tables too.
    pub records: Vec<String>,
    /// The markings, in the order of their rows.
    pub markings: Vec<MarkingId>,
    /// In which format.
    pub format: TableFormat,
}

/// A format of tables.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum TableFormat {
    /// A workbook with a sheet for marks, readings, totals and rubrics (ISO/IEC 29500).
    Xlsx,
    /// Comma-separated values (RFC 4180).
    Csv(Layout),
}

impl TableFormat {
    /// All of them.
    pub const ALL: [Self; 3] = [Self::Xlsx, Self::Csv(Layout::Long), Self::Csv(Layout::Wide)];

    /// The format in a word.
    pub fn word(self) -> &'static str {
        match self {
            Self::Xlsx => "xlsx",
            Self::Csv(Layout::Long) => "csv-long",
            Self::Csv(Layout::Wide) => "csv-wide",
        }
    }

    /// The format of this word; the workbook where there is none.
    pub fn from_word(word: &str) -> Self {
        let found = Self::ALL.into_iter().find(|format| format.word() == word);
        found.unwrap_or(Self::Xlsx)
    }
}

/// A table that the worker made.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct MadeTable {
    /// Its bytes as base64 (RFC 4648).
    pub data: String,
    /// How many markings are in it.
    pub markings: usize,
}
