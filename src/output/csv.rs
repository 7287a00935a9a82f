//! CSV as RFC 4180 has it: UTF-8 without a byte order mark, lines ended by CR LF, a
//! header line, fields quoted where they hold a comma, a quotation mark or a line end. Dates
//! are as ISO 8601 has them, moments as RFC 3339.
//!
//! *Formulas.* A text that starts with `=`, `+`, `-`, `@`, a tab, CR or LF, or with the
//! full-width `＝＋－＠`, gets an apostrophe before it, because spreadsheets run such
//! text; quoting does not stop them. A text that is nothing but a plain number
//! (`-0.35`) stays as it is, and so does every number. To read a text back, take away
//! one apostrophe that stands before one of these characters ([`unguarded`]).

use std::borrow::Cow;

use ::csv::{QuoteStyle, Terminator, WriterBuilder};
use thiserror::Error;

use crate::sheet::{Field, Rows};

/// Why no CSV could be written.
#[derive(Debug, Error)]
#[error("the table could not be written as CSV: {0}; report this, it is a fault of the program")]
pub struct CsvError(String);

/// `rows` as CSV.
///
/// *Errors:* [`CsvError`] where a row is not as wide as the columns.
pub fn write(rows: &Rows) -> Result<String, CsvError> {
    let fault = |error: &dyn std::fmt::Display| CsvError(error.to_string());
    let mut writer = WriterBuilder::new()
        .terminator(Terminator::CRLF)
        .quote_style(QuoteStyle::Necessary)
        .from_writer(Vec::new());
    writer
        .write_record(
            rows.columns
                .iter()
                .map(|column| guarded(column).into_owned()),
        )
        .map_err(|error| fault(&error))?;
    for row in &rows.rows {
        let fields = row.iter().map(field);
        writer
            .write_record(fields.map(|field| field.into_owned()))
            .map_err(|error| fault(&error))?;
    }
    let bytes = writer.into_inner().map_err(|error| fault(&error))?;
    String::from_utf8(bytes).map_err(|error| fault(&error))
}

fn field(field: &Field) -> Cow<'_, str> {
    match field {
        Field::Number(number) => Cow::Borrowed(number),
        Field::Text(text) => guarded(text),
        Field::Day(_) | Field::Moment(_) => Cow::Owned(field.words()),
    }
}

/// A text that no spreadsheet runs.
pub fn guarded(text: &str) -> Cow<'_, str> {
    if text.starts_with(runs) && !is_plain_number(text) {
        Cow::Owned(format!("'{text}"))
    } else {
        Cow::Borrowed(text)
    }
}

/// The text that [`guarded`] was given, save for texts that began with such an
/// apostrophe themselves.
pub fn unguarded(field: &str) -> &str {
    match field.strip_prefix('\'') {
        Some(text) if text.starts_with(runs) && !is_plain_number(text) => text,
        _ => field,
    }
}

/// Whether a text that starts so is run by a spreadsheet.
fn runs(first: char) -> bool {
    matches!(
        first,
        '=' | '+' | '-' | '@' | '\t' | '\r' | '\n' | '＝' | '＋' | '－' | '＠'
    )
}

/// Digits with at most one point, and at most a minus before them.
fn is_plain_number(text: &str) -> bool {
    let size = text.strip_prefix('-').unwrap_or(text);
    let (whole, decimals) = size.split_once('.').unwrap_or((size, "0"));
    let digits = |part: &str| !part.is_empty() && part.bytes().all(|byte| byte.is_ascii_digit());
    digits(whole) && digits(decimals)
}
