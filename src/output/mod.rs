//! Files that leave the program: a marking's rows as CSV, a sealed marking as JSON
//! that anyone can verify, documents as PDF and as plain text, and names for them.
//!
//! *Invariant.* Writing never loses or changes what was typed, with two exceptions:
//! an apostrophe before text that a spreadsheet would run ([`csv`]), and control
//! characters, which a PDF does not hold ([`pdf`](mod@pdf)).

pub mod csv;
mod file_name;
pub mod json;
pub mod pdf;
mod text;

pub use file_name::{file_base, sheet_base};
pub use text::text;
