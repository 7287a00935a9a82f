use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use crate::records::MarkingId;

/// Scored sheets that are wanted as a file, with all that they are made from.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Sheets {
    /// What the file is called where it holds several.
    pub title: String,
    /// The records, each as JSON.
    pub records: Vec<String>,
    /// The bytes of photos on the sheets as base64 (RFC 4648), by digest.
    pub pictures: BTreeMap<String, String>,
    /// The markings, in the order of their sheets.
    pub markings: Vec<MarkingId>,
    /// On which paper.
    pub paper: PaperSize,
    /// In which way several are handed over.
    pub binding: Binding,
}

/// Paper that people print on.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum PaperSize {
    /// ISO 216.
    #[default]
    A4,
    /// ANSI/ASME Y14.1, size A.
    Letter,
}

impl PaperSize {
    /// Both.
    pub const ALL: [Self; 2] = [Self::A4, Self::Letter];

    /// The size in a word.
    pub fn word(self) -> &'static str {
        match self {
            Self::A4 => "a4",
            Self::Letter => "letter",
        }
    }

    /// The size of this word; the usual one where there is none.
    pub fn from_word(word: &str) -> Self {
        let found = Self::ALL.into_iter().find(|size| size.word() == word);
        found.unwrap_or_default()
    }
}

/// How several sheets are handed over.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Binding {
    /// One PDF.
    #[default]
    OnePdf,
    /// A PDF for each, in a ZIP.
    Zip,
}

impl Binding {
    /// Both.
    pub const ALL: [Self; 2] = [Self::OnePdf, Self::Zip];

    /// The way in a word.
    pub fn word(self) -> &'static str {
        match self {
            Self::OnePdf => "one-pdf",
            Self::Zip => "zip",
        }
    }

    /// The way of this word; the usual one where there is none.
    pub fn from_word(word: &str) -> Self {
        let found = Self::ALL.into_iter().find(|way| way.word() == word);
        found.unwrap_or_default()
    }
}

/// A file that the worker made.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Made {
    /// Its bytes as base64 (RFC 4648).
    pub data: String,
    /// How many sheets are in it.
    pub sheets: usize,
    /// How many pages it has in all.
    pub pages: usize,
    /// Characters that the faces lack, drawn as boxes, and how often.
    pub missing: BTreeMap<char, usize>,
}
