//! Values in the place of others, and keys that were not there.

use toml_edit::{DocumentMut, Item, Table, TableLike, Value};

use super::Written;
use super::path::{Path, Step};
use super::walk::Node;

/// Keys and values in order.
pub(super) type Fields = [(&'static str, Written)];

pub(super) fn set(document: &mut DocumentMut, at: &Path, to: &Written) -> Option<()> {
    let (above, last) = at.parent()?;
    let Step::Key(key) = last else {
        return None;
    };
    let table = Node::Table(document.as_table_mut())
        .down(above.steps())?
        .table()?;
    put(table, key, to.value());
    Some(())
}

/// Makes a table of the root, unless something stands there.
pub(super) fn begin(document: &mut DocumentMut, at: &Path, keys: &Fields) -> Option<()> {
    let [Step::Key(key)] = at.steps() else {
        return None;
    };
    let root = document.as_table_mut();
    if root.contains_key(key) {
        return None;
    }
    let mut table = Table::new();
    table.decor_mut().set_prefix("\n");
    fill(&mut table, keys);
    root.insert(key, Item::Table(table));
    Some(())
}

/// Writes all of `fields`, in order.
pub(super) fn fill(table: &mut dyn TableLike, fields: &Fields) {
    for (key, written) in fields {
        put(table, key, written.value());
    }
}

/// Writes `value` under `key`: what stands around the old one stays around the new.
pub(super) fn put(table: &mut dyn TableLike, key: &str, mut value: Value) {
    if let Some(Item::Value(old)) = table.get_mut(key) {
        *value.decor_mut() = old.decor().clone();
        *old = value;
        return;
    }
    let before = table.iter().filter(|(_, item)| item.is_value()).last();
    let before = before.map(|(name, _)| name.to_owned());
    let indent = before.as_deref().and_then(|name| indent_of(table, name));
    if let Some(Item::Value(last)) = before.as_deref().and_then(|name| table.get_mut(name)) {
        // In braces the space before the closing one hangs on the last value.
        let end = last.decor().suffix().and_then(|suffix| suffix.as_str());
        if let Some(end) = end.filter(|end| end.trim().is_empty()).map(str::to_owned) {
            last.decor_mut().set_suffix("");
            value.decor_mut().set_suffix(end);
        }
        value.decor_mut().set_prefix(" ");
    }
    table.insert(key, Item::Value(value));
    if let (Some(indent), Some(mut key)) = (indent, table.key_mut(key)) {
        key.leaf_decor_mut().set_prefix(indent);
        key.leaf_decor_mut().set_suffix(" ");
    }
}

/// The space in front of `key` on its line; none where nobody has said so yet.
pub(super) fn indent_of(table: &dyn TableLike, key: &str) -> Option<String> {
    let prefix = table.key(key)?.leaf_decor().prefix()?.as_str()?;
    Some(last_line(prefix).to_owned())
}

/// What stands behind the last line end.
pub(super) fn last_line(text: &str) -> &str {
    text.rsplit('\n').next().unwrap_or("")
}

impl Written {
    pub(super) fn value(&self) -> Value {
        match self {
            Self::Text(text) => Value::from(text.as_str()),
            Self::Amount(text) => amount(text),
            Self::Flag(flag) => Value::from(*flag),
        }
    }
}

/// A plain number keeps its digits: as a float it would not.
fn amount(text: &str) -> Value {
    let digits = text.strip_prefix('-').unwrap_or(text);
    let (whole, part) = digits.split_once('.').unwrap_or((digits, "0"));
    let is_digits = |text: &str| !text.is_empty() && text.bytes().all(|b| b.is_ascii_digit());
    let is_number = is_digits(whole)
        && is_digits(part)
        && whole.len() + part.len() <= 15
        && (whole == "0" || !whole.starts_with('0'));
    match text.parse::<Value>() {
        Ok(value) if is_number => value,
        _ => Value::from(text),
    }
}
