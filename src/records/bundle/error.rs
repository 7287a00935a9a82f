use thiserror::Error;

use crate::records::record::RecordKey;

/// Why a file is not read as a ledger, where, and how to mend it. Nothing of it
/// is taken over then.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum BundleError {
    /// There is nothing in it.
    #[error("the file is empty; choose another copy, or save the ledger anew where it came from")]
    Empty,
    /// Something else altogether.
    #[error(
        "this is no ledger file: {why}; choose a file that was saved on the page Ledger, its name \
         begins with evenshod-ledger"
    )]
    Foreign {
        /// What it is instead, or what the reader said.
        why: String,
    },
    /// A newer program wrote it.
    #[error(
        "this file was written by a newer version ({what}), and this one cannot read it; reload \
         the page to get a newer version, then read the file again"
    )]
    Newer {
        /// What is newer in it.
        what: String,
    },
    /// Its end is missing.
    #[error(
        "the end of the file is missing: {there}; copy it again from where it was saved, or save \
         the ledger anew there"
    )]
    CutShort {
        /// How much of it is there.
        there: String,
    },
    /// It was a ledger file and is no longer one.
    #[error(
        "the file is damaged on line {line}: {why}; choose another copy, or save the ledger anew \
         where it came from"
    )]
    Damaged {
        /// The line, from 1.
        line: usize,
        /// What the reader said.
        why: String,
    },
    /// Its text was changed since it was written.
    #[error(
        "the file was altered after it was saved: {what}; choose another copy, or save the ledger \
         anew where it came from"
    )]
    Altered {
        /// What does not fit.
        what: String,
    },
    /// A record in it that is none.
    #[error(
        "record {number} of the file cannot be read ({why}), so nothing of it is taken; choose \
         another copy, or save the ledger anew where it came from"
    )]
    Record {
        /// Which record, from 1.
        number: usize,
        /// Why it cannot be read.
        why: String,
    },
    /// Two records under one key, which no program writes.
    #[error(
        "records {first} and {second} of the file are both {key}, so it is not clear which one \
         counts; choose another copy, or save the ledger anew where it came from"
    )]
    Twice {
        /// The key.
        key: RecordKey,
        /// The first of them, from 1.
        first: usize,
        /// The other.
        second: usize,
    },
    /// The file cannot be written.
    #[error(
        "the ledger cannot be written as a file: {why}; report this, it is a fault of the program"
    )]
    Write {
        /// What the writer said.
        why: String,
    },
}
