//! Comments on single criteria as they are written on paper: a number and the comment.

use std::collections::BTreeMap;

use super::paper::PaperPart;
use crate::command::Edit;

/// The comments that stand, each of their lines beginning with a number of its criterion,
/// in the order of the numbers: `12 Heels uneven.`
pub fn paper_notes(parts: &[PaperPart], comments: &BTreeMap<String, String>) -> String {
    let mut said = Vec::new();
    for (row, number) in one_each(parts) {
        let lines = comments.get(row).map_or("", String::as_str).lines();
        said.extend(lines.map(|line| format!("{number} {}", line.trim())));
    }
    said.join("\n")
}

/// What typing `text` for all of [`paper_notes`] does, where `comments` stand. A line that
/// does not begin with a number goes on with the comment above it; two comments on one
/// criterion are one.
///
/// *Errors:* in words, what is wrong with which line; then nothing is to be done.
pub fn notes_typed(
    parts: &[PaperPart],
    comments: &BTreeMap<String, String>,
    text: &str,
) -> Result<Vec<Edit>, String> {
    let mut found: BTreeMap<&str, String> = BTreeMap::new();
    let mut current: Option<&str> = None;
    for line in text.lines() {
        let line = line.trim();
        let (row, words) = match numbered(line) {
            Some((number, words)) => (Some(row_of(parts, number)?), words),
            None if line.is_empty() && current.is_none() => continue,
            None => (current, line),
        };
        let row = row.ok_or_else(|| format!("Begin with the number that it is about: {line}"))?;
        current = Some(row);
        let comment = found.entry(row).or_default();
        if !comment.is_empty() {
            comment.push('\n');
        }
        comment.push_str(words);
    }
    let mut edits = Vec::new();
    for (row, _) in one_each(parts) {
        let wanted = found.get(row).map(|comment| comment.trim());
        let wanted = wanted.filter(|comment| !comment.is_empty());
        let stands = comments.get(row).map_or("", String::as_str);
        if !alike(wanted.unwrap_or_default(), stands) {
            edits.push(Edit::SetComment {
                entry: Some(row.to_owned()),
                comment: wanted.map(str::to_owned),
            });
        }
    }
    Ok(edits)
}

/// A number that begins a line, and what comes after it.
fn numbered(line: &str) -> Option<(u32, &str)> {
    let end = line
        .find(|sign: char| !sign.is_ascii_digit())
        .unwrap_or(line.len());
    let (number, rest) = line.split_at_checked(end)?;
    // `10.5 mm too wide` goes on with a comment, as a reading does not name a criterion.
    let is_apart =
        rest.is_empty() || rest.starts_with(|sign: char| sign.is_whitespace() || sign == ':');
    let number = number.parse().ok().filter(|_| is_apart)?;
    Some((number, rest.trim_start_matches(':').trim()))
}

fn row_of(parts: &[PaperPart], number: u32) -> Result<&str, String> {
    let fields = || parts.iter().flat_map(|part| &part.fields);
    let found = fields().find(|field| field.number == number);
    let last = fields().last();
    let last = last.map_or(0, |field| field.number);
    found
        .map(|field| field.row.id.as_str())
        .ok_or_else(|| format!("{number}: the criteria have the numbers 1 to {last}."))
}

/// Each row once, with the first of its numbers.
fn one_each(parts: &[PaperPart]) -> Vec<(&str, u32)> {
    let mut rows: Vec<(&str, u32)> = Vec::new();
    for field in parts.iter().flat_map(|part| &part.fields) {
        if rows.iter().all(|(row, _)| *row != field.row.id) {
            rows.push((&field.row.id, field.number));
        }
    }
    rows
}

/// Whether two comments differ by nothing but spaces around their lines.
fn alike(one: &str, other: &str) -> bool {
    let lines = |text: &str| -> Vec<String> {
        let lines = text.trim().lines();
        lines.map(|line| line.trim().to_owned()).collect()
    };
    lines(one) == lines(other)
}
