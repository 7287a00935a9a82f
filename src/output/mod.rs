//! Files that leave the program: markings as CSV and as workbooks, a sealed marking as JSON
//! that anyone can verify, documents as PDF and as plain text, drawings as SVG, and names for them.
//!
//! *Invariant.* Writing never loses or changes what was typed, with two exceptions:
//! an apostrophe before text that a spreadsheet would run ([`csv`]), and control
//! characters, which a PDF does not hold ([`pdf`](mod@pdf)). A workbook has a type for each
//! cell, so its texts stand as they are ([`xlsx`]).

pub mod csv;
mod file_name;
mod ink;
pub mod json;
mod look;
pub mod pdf;
mod png;
mod svg;
mod text;
pub mod xlsx;

pub use file_name::{file_base, sheet_base};
pub use png::with_density;
pub use svg::{SvgFile, svg, svg_at_true_size};
pub use text::text;
