//! The TOML text, key by key. Everything wrong is reported at once, with line
//! and column; an unknown key is an error.

mod advice;
mod award;
mod check;
mod criterion;
mod impression;
mod kinds;
mod lists;
mod numbers;
mod photo;
mod piece;
mod root;
mod scale;
mod table;

use std::cell::RefCell;

use toml::de::DeTable;

use super::diagnostic::{Diagnostic, Severity};
use super::model::Rubric;
use crate::quantity::Unit;
pub use table::{ID_RULE, is_id};
use table::{Source, Table};

/// What came of reading a rubric file.
#[derive(Debug, Clone)]
pub struct Checked {
    /// The rubric, where nothing stands against using it.
    pub rubric: Option<Rubric>,
    /// Errors and warnings in the order of the text.
    pub diagnostics: Vec<Diagnostic>,
}

impl Checked {
    /// The errors alone.
    pub fn errors(&self) -> impl Iterator<Item = &Diagnostic> {
        self.diagnostics
            .iter()
            .filter(|found| found.severity == Severity::Error)
    }
}

/// Longest rubric that is read, in bytes.
const LONGEST: usize = 1_000_000;

/// Reads and checks one rubric file.
///
/// *Shape:* TOML 1.0 with `schema = 1`; every key is described in
/// `rubrics/README.md`. *Errors:* all of them, in [`Checked::diagnostics`].
pub fn read_rubric(text: &str) -> Checked {
    let mut source = Source {
        text,
        bare_length: Unit::Millimetre,
        diagnostics: RefCell::default(),
        places: RefCell::default(),
    };
    if text.len() > LONGEST {
        source.error(
            0..0,
            "the file has more than a million bytes",
            "leave long texts out",
        );
        return Checked {
            rubric: None,
            diagnostics: source.diagnostics.into_inner(),
        };
    }
    let (root, faults) = DeTable::parse_recoverable(text);
    for fault in first_of_each_line(text, &faults) {
        let remedy = "mend the TOML here: key = value, texts in quotes";
        source.error(fault.span().unwrap_or(0..0), fault.message(), remedy);
    }
    if !faults.is_empty() {
        return finish(source.diagnostics.into_inner(), None);
    }
    source.bare_length = bare_length_of(root.get_ref());
    let rubric = root::read_root(&Table::new(&source, root.get_ref(), 0..0, "the rubric"));
    check::check(&source, &rubric);
    if source.has_no_errors() {
        advice::advise(&source, &rubric);
    }
    let diagnostics = source.diagnostics.take();
    finish(diagnostics, Some(rubric))
}

/// One thing out of place makes many faults of syntax behind it: the first of a
/// line, and no more than a person mends at once.
fn first_of_each_line<'f>(text: &str, faults: &'f [toml::de::Error]) -> Vec<&'f toml::de::Error> {
    const MOST: usize = 10;
    let line = |fault: &toml::de::Error| {
        let start = fault.span().map_or(0, |span| span.start);
        text.get(..start).map(|before| before.matches('\n').count())
    };
    let mut kept: Vec<&toml::de::Error> = Vec::new();
    for fault in faults {
        if kept.len() < MOST && kept.last().map(|last| line(last)) != Some(line(fault)) {
            kept.push(fault);
        }
    }
    kept
}

fn finish(mut diagnostics: Vec<Diagnostic>, rubric: Option<Rubric>) -> Checked {
    diagnostics.sort_by_key(|found| (found.span.start, found.severity));
    diagnostics.dedup();
    let usable = !diagnostics
        .iter()
        .any(|found| found.severity == Severity::Error);
    Checked {
        rubric: rubric.filter(|_| usable),
        diagnostics,
    }
}

/// What a bare length means must be known before any length is read.
fn bare_length_of(root: &DeTable<'_>) -> Unit {
    match root.get("unit").and_then(|unit| unit.get_ref().as_str()) {
        Some("in") => Unit::Inch64,
        _ => Unit::Millimetre,
    }
}
