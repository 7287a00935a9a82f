//! Files that leave the program: a marking's rows as CSV, a sealed marking as JSON
//! that anyone can verify, and names for both.
//!
//! *Invariant.* Writing never loses or changes what was typed, with one exception
//! that [`csv`] names: an apostrophe before text that a spreadsheet would run.

pub mod csv;
mod file_name;
pub mod json;

pub use file_name::{file_base, sheet_base};
