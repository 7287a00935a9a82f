//! What differs between two rubric files, whatever it is that differs: both are read as
//! TOML, and items of lists are told by their ids, not by where they stand.

use toml_edit::{Item, Table, TableLike, Value};

use super::EditError;
use super::outline::{Outline, text_of};

/// One difference between two rubrics.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Difference {
    /// Where, from the outside in: the names of section, criterion, band.
    pub place: Vec<String>,
    /// Which key, or what kind of item.
    pub what: String,
    /// What it was; `None` where it was not there.
    pub before: Option<String>,
    /// What it is; `None` where it is not there any more.
    pub after: Option<String>,
}

/// Every difference from `before` to `after`, in the order of the latter, what is gone
/// where it stood.
///
/// *Errors:* [`EditError::NotToml`].
pub fn compare(before: &str, after: &str) -> Result<Vec<Difference>, EditError> {
    let (before, after) = (Outline::of(before)?, Outline::of(after)?);
    let mut found = Vec::new();
    tables(
        Some(before.root()),
        Some(after.root()),
        &mut Vec::new(),
        &mut found,
    );
    Ok(found)
}

/// One of the two sides, as far as it is there.
#[derive(Clone, Copy)]
pub(super) enum Side<'d> {
    Item(&'d Item),
    Value(&'d Value),
    Table(&'d Table),
}

impl<'d> Side<'d> {
    fn table(self) -> Option<&'d dyn TableLike> {
        match self {
            Self::Item(item) => item.as_table_like(),
            Self::Table(table) => Some(table),
            Self::Value(value) => value
                .as_inline_table()
                .map(|table| -> &dyn TableLike { table }),
        }
    }

    /// Items of a list of tables; `None` for all else.
    fn list(self) -> Option<Vec<Side<'d>>> {
        let array = match self {
            Self::Item(Item::ArrayOfTables(tables)) => {
                return Some(tables.iter().map(Side::Table).collect());
            }
            Self::Item(Item::Value(Value::Array(array))) | Self::Value(Value::Array(array)) => {
                array
            }
            _ => return None,
        };
        let is_tables = array.iter().all(Value::is_inline_table) && !array.is_empty();
        is_tables.then(|| array.iter().map(Side::Value).collect())
    }

    fn text(self) -> Option<String> {
        let value = match self {
            Self::Item(item) => item.as_value()?,
            Self::Value(value) => value,
            Self::Table(_) => return None,
        };
        text_of(value).map(|text| text.trim().to_owned())
    }

    fn said(self, key: &str) -> Option<String> {
        Side::Item(self.table()?.get(key)?).text()
    }

    /// All that it says, in a line.
    fn summary(self) -> String {
        if let Some(text) = self.text() {
            return text;
        }
        if let Some(items) = self.list() {
            let items = items.into_iter().map(Side::summary);
            return items.collect::<Vec<_>>().join("; ");
        }
        let keys = self.table().into_iter().flat_map(TableLike::iter);
        let keys =
            keys.map(|(key, item)| format!("{}: {}", words(key), Side::Item(item).summary()));
        keys.collect::<Vec<_>>().join(", ")
    }
}

fn tables(
    before: Option<Side<'_>>,
    after: Option<Side<'_>>,
    place: &mut Vec<String>,
    found: &mut Vec<Difference>,
) {
    let keys = |side: Option<Side<'_>>| -> Vec<String> {
        let table = side.and_then(Side::table);
        let keys = table.into_iter().flat_map(TableLike::iter);
        keys.map(|(key, _)| key.to_owned()).collect()
    };
    for key in in_order(&keys(before), &keys(after)) {
        let old = before.and_then(|side| at(side, &key));
        let new = after.and_then(|side| at(side, &key));
        one(&key, old, new, place, found);
    }
}

fn at<'d>(side: Side<'d>, key: &str) -> Option<Side<'d>> {
    side.table()?.get(key).map(Side::Item)
}

fn one(
    key: &str,
    before: Option<Side<'_>>,
    after: Option<Side<'_>>,
    place: &mut Vec<String>,
    found: &mut Vec<Difference>,
) {
    let lists = (before.and_then(Side::list), after.and_then(Side::list));
    if lists.0.is_some() || lists.1.is_some() {
        let (old, new) = (lists.0.unwrap_or_default(), lists.1.unwrap_or_default());
        return items(key, &old, &new, place, found);
    }
    let is_table = |side: Option<Side<'_>>| side.is_some_and(|side| side.table().is_some());
    if is_table(before) && is_table(after) {
        place.push(words(key));
        tables(before, after, place, found);
        place.pop();
        return;
    }
    let (old, new) = (before.map(Side::summary), after.map(Side::summary));
    if old != new {
        found.push(Difference {
            place: place.clone(),
            what: words(key),
            before: old,
            after: new,
        });
    }
}

fn items(
    key: &str,
    before: &[Side<'_>],
    after: &[Side<'_>],
    place: &mut Vec<String>,
    found: &mut Vec<Difference>,
) {
    let (old, new) = (identities(before), identities(after));
    let kept = |names: &[String], others: &[String]| -> Vec<String> {
        names
            .iter()
            .filter(|name| others.contains(name))
            .cloned()
            .collect()
    };
    let (one_order, other_order) = (kept(&old, &new), kept(&new, &old));
    if one_order != other_order {
        found.push(Difference {
            place: place.clone(),
            what: format!("order of {}", words(key)),
            before: Some(one_order.join(", ")),
            after: Some(other_order.join(", ")),
        });
    }
    for id in in_order(&old, &new) {
        let one = old.iter().zip(before).find(|(name, _)| **name == id);
        let one = one.map(|(_, side)| *side);
        let other = new.iter().zip(after).find(|(name, _)| **name == id);
        let other = other.map(|(_, side)| *side);
        let named = other.or(one).and_then(|side| side.said("name"));
        place.push(named.unwrap_or_else(|| id.clone()));
        match (one, other) {
            (Some(one), Some(other)) => tables(Some(one), Some(other), place, found),
            _ => found.push(Difference {
                place: place.clone(),
                what: singular(key),
                before: one.map(Side::summary),
                after: other.map(Side::summary),
            }),
        }
        place.pop();
    }
}

/// What tells the items of a list apart: the first of these keys, else their number.
fn identities(items: &[Side<'_>]) -> Vec<String> {
    let mut found: Vec<String> = Vec::new();
    for (index, item) in items.iter().enumerate() {
        let keys = ["id", "code", "name", "at", "part", "place"];
        let named = keys.iter().find_map(|key| item.said(key));
        let named = named.filter(|name| !name.is_empty() && !found.contains(name));
        found.push(named.unwrap_or_else(|| format!("number {}", index + 1)));
    }
    found
}

/// The new ones in their order, each old one that is gone behind the one that it followed.
fn in_order(old: &[String], new: &[String]) -> Vec<String> {
    let mut all: Vec<String> = new.to_vec();
    let mut behind: Option<&String> = None;
    for name in old {
        if !new.contains(name) {
            let at = behind.and_then(|behind| all.iter().position(|one| one == behind));
            all.insert(at.map_or(0, |at| at + 1), name.clone());
        }
        behind = Some(name);
    }
    all
}

fn words(key: &str) -> String {
    key.replace('_', " ")
}

fn singular(key: &str) -> String {
    match key {
        "criteria" => "criterion".to_owned(),
        other => words(other.strip_suffix('s').unwrap_or(other)),
    }
}
