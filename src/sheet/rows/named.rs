//! Columns under the names that somebody has given them.

use std::collections::{BTreeMap, BTreeSet};

use thiserror::Error;

use super::{Field, Rows};
use crate::records::{MARKS, NamedColumn};

/// Two columns that would have one name.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
#[error(
    "two columns would be called `{name}`, {first} and {second}; give one of them another name \
     under Column names"
)]
pub struct SameName {
    /// The name.
    pub name: String,
    /// The key of the first.
    pub first: String,
    /// The key of the second.
    pub second: String,
}

/// `rows` with these columns in this order under their names; the others are left out. The
/// line of all criteria stands for those that no line names by themselves. A column that
/// `rows` does not have, as of a criterion of another rubric, is empty. No columns at all
/// stand for the usual ones.
///
/// *Errors:* [`SameName`].
pub fn in_columns(rows: Rows, columns: &[NamedColumn]) -> Result<Rows, SameName> {
    if columns.is_empty() {
        return Ok(rows);
    }
    let places: BTreeMap<&str, usize> =
        (rows.columns.iter().map(String::as_str)).zip(0..).collect();
    let alone: BTreeSet<&str> = columns.iter().map(|column| column.key.as_str()).collect();
    let mut wanted: Vec<(&str, String)> = Vec::new();
    for NamedColumn { key, name } in columns {
        if key != MARKS || places.contains_key(MARKS) {
            wanted.push((key, name.clone()));
            continue;
        }
        for column in &rows.columns {
            let id = column
                .strip_prefix(MARKS)
                .and_then(|id| id.strip_prefix('.'));
            let Some(id) = id.filter(|_| !alone.contains(column.as_str())) else {
                continue;
            };
            wanted.push((column, name.replacen('*', id, 1)));
        }
    }
    refuse_same(&wanted)?;
    let at: Vec<Option<usize>> = wanted
        .iter()
        .map(|(key, _)| places.get(key).copied())
        .collect();
    let row = |row: &Vec<Field>| {
        let fields = at.iter().map(|at| at.and_then(|at| row.get(at)).cloned());
        fields
            .map(|field| field.unwrap_or_else(Field::empty))
            .collect()
    };
    Ok(Rows {
        rows: rows.rows.iter().map(row).collect(),
        columns: wanted.into_iter().map(|(_, name)| name).collect(),
    })
}

fn refuse_same(wanted: &[(&str, String)]) -> Result<(), SameName> {
    let mut seen: BTreeMap<String, &str> = BTreeMap::new();
    for (key, name) in wanted {
        if let Some(first) = seen.insert(name.to_lowercase(), key) {
            return Err(SameName {
                name: name.clone(),
                first: first.to_owned(),
                second: (*key).to_owned(),
            });
        }
    }
    Ok(())
}
