use thiserror::Error;

use crate::records::SealError;

/// Why a file of a sealed marking is not made or not read: what is wrong, where, and how
/// to mend it.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum JsonError {
    /// There is nothing in it.
    #[error("the file is empty; choose another copy, or save the sheet as JSON anew")]
    Empty,
    /// It is no such file.
    #[error(
        "this is no sealed marking of this program: {why}; choose the JSON file of a sheet, or a \
         ledger file"
    )]
    Foreign {
        /// What it is instead, or what the reader said.
        why: String,
    },
    /// A newer program wrote it.
    #[error(
        "this file has schema {found}, and this program reads up to {newest}; use a newer version"
    )]
    Newer {
        /// The schema number in the file.
        found: u64,
        /// The newest that is read.
        newest: u64,
    },
    /// Its end is missing.
    #[error(
        "the end of the file is missing, it stops on line {line}, column {column}; copy it again \
         from where it was saved, or save the sheet as JSON anew"
    )]
    CutShort {
        /// The line, from 1.
        line: usize,
        /// The byte in it, from 1.
        column: usize,
    },
    /// It was such a file and is no longer one.
    #[error(
        "the file was altered or damaged on line {line}, column {column}: {why}; choose another \
         copy, or save the sheet as JSON anew"
    )]
    Damaged {
        /// The line, from 1.
        line: usize,
        /// The byte in it, from 1.
        column: usize,
        /// What the reader said.
        why: String,
    },
    /// It has the marks of such a file, and not what belongs into one.
    #[error(
        "the file was altered or damaged: {why}; choose another copy, or save the sheet as JSON \
         anew"
    )]
    Fields {
        /// Which part, and what the reader said.
        why: String,
    },
    /// The seal does not allow it.
    #[error(transparent)]
    Seal(#[from] SealError),
}
