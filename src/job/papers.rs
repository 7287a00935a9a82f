use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use crate::records::MarkingId;
use crate::sheet::Document;

/// Documents that are wanted as a file, with all that they are made from.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Papers {
    /// What the file is called where it holds several.
    pub title: String,
    /// What they say.
    pub content: Content,
    /// The bytes of photos in them as base64 (RFC 4648), by digest.
    pub pictures: BTreeMap<String, String>,
    /// What they are to become.
    pub form: Form,
}

/// What papers say.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub enum Content {
    /// Scored sheets, which the worker makes: to weigh how sure each is takes long.
    Sheets {
        /// The records, each as JSON.
        records: Vec<String>,
        /// The markings, in the order of their sheets.
        markings: Vec<MarkingId>,
    },
    /// Documents as they are.
    Documents(Vec<Titled>),
}

/// A document with the name of its file.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Titled {
    /// The file's name without an ending.
    pub base: String,
    /// The document.
    pub document: Document,
}

/// What papers are to become.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Form {
    /// In which kind of file.
    pub kind: PaperKind,
    /// On which paper, where the file has pages.
    pub size: PaperSize,
    /// In which way several are handed over.
    pub binding: Binding,
}

/// A kind of file that documents become.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum PaperKind {
    /// Pages to print, read and search.
    #[default]
    Pdf,
    /// The words alone.
    Text,
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
    /// ISO 216, half of A4.
    A5,
    /// Half of Letter.
    HalfLetter,
    /// ISO 216, a quarter of A4.
    A6,
}

/// How several documents are handed over.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Binding {
    /// One file.
    #[default]
    One,
    /// A file for each, in a ZIP.
    Zip,
}

/// Gives a choice its words, and finds it by its word again.
macro_rules! words {
    ($choice:ident { $($name:ident = $word:literal,)* }) => {
        impl $choice {
            /// All there are.
            pub const ALL: &'static [Self] = &[$(Self::$name,)*];

            /// It in a word.
            pub fn word(self) -> &'static str {
                match self {
                    $(Self::$name => $word,)*
                }
            }

            /// That of this word; the usual one where there is none.
            pub fn from_word(word: &str) -> Self {
                let mut all = Self::ALL.iter().copied();
                all.find(|one| one.word() == word).unwrap_or_default()
            }
        }
    };
}

words!(PaperKind { Pdf = "pdf", Text = "text", });
words!(PaperSize { A4 = "a4", Letter = "letter", A5 = "a5", HalfLetter = "half-letter", A6 = "a6", });
words!(Binding { One = "one", Zip = "zip", });

/// A file that the worker made.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Made {
    /// Its bytes as base64 (RFC 4648).
    pub data: String,
    /// How many documents are in it.
    pub documents: usize,
    /// How many pages it has in all; none where it has no pages.
    pub pages: usize,
    /// Characters that the faces lack, drawn as boxes, and how often.
    pub missing: BTreeMap<char, usize>,
}
