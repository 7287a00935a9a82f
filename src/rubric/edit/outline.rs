use std::ops::Range;

use toml_edit::{Document, Item, Table, Value};

use super::EditError;
use super::compare::Side;
use super::path::{Path, Step};

/// What stands where in a text that is TOML, whether or not it is a rubric.
#[derive(Debug, Clone)]
pub struct Outline {
    document: Document<String>,
}

enum Seen<'d> {
    Table(&'d Table),
    Item(&'d Item),
    Value(&'d Value),
}

impl Outline {
    /// The outline of `text`.
    ///
    /// *Errors:* [`EditError::NotToml`].
    pub fn of(text: &str) -> Result<Self, EditError> {
        match Document::parse(text.to_owned()) {
            Ok(document) => Ok(Self { document }),
            Err(fault) => Err(EditError::NotToml {
                why: fault.message().to_owned(),
            }),
        }
    }

    /// The value at `path` as a person writes it; lists of texts with commas between.
    pub fn text(&self, path: &Path) -> Option<String> {
        let value = match self.seen(path)? {
            Seen::Item(item) => item.as_value()?,
            Seen::Value(value) => value,
            Seen::Table(_) => return None,
        };
        text_of(value)
    }

    /// Whether anything stands at `path`.
    pub fn has(&self, path: &Path) -> bool {
        self.seen(path).is_some()
    }

    /// How many items the list at `path` has; none where there is no list.
    pub fn count(&self, path: &Path) -> usize {
        match self.seen(path) {
            Some(Seen::Item(Item::ArrayOfTables(tables))) => tables.len(),
            Some(
                Seen::Item(Item::Value(Value::Array(array))) | Seen::Value(Value::Array(array)),
            ) => array.len(),
            _ => 0,
        }
    }

    /// The bytes of the text that `path` stands on: a value, or a table's head.
    pub fn span(&self, path: &Path) -> Option<Range<usize>> {
        match self.seen(path)? {
            Seen::Table(table) => table.span(),
            Seen::Item(item) => item.span(),
            Seen::Value(value) => value.span(),
        }
    }

    pub(super) fn root(&self) -> Side<'_> {
        Side::Table(self.document.as_table())
    }

    fn seen(&self, path: &Path) -> Option<Seen<'_>> {
        let mut seen = Seen::Table(self.document.as_table());
        for step in path.steps() {
            seen = match (step, seen) {
                (Step::Key(key), Seen::Table(table)) => Seen::Item(table.get(key)?),
                (Step::Key(key), Seen::Item(item)) => Seen::Item(item.as_table_like()?.get(key)?),
                (Step::Key(key), Seen::Value(value)) => {
                    Seen::Value(value.as_inline_table()?.get(key)?)
                }
                (Step::At(at), Seen::Item(Item::ArrayOfTables(tables))) => {
                    Seen::Table(tables.get(*at)?)
                }
                (
                    Step::At(at),
                    Seen::Item(Item::Value(Value::Array(array))) | Seen::Value(Value::Array(array)),
                ) => Seen::Value(array.get(*at)?),
                _ => return None,
            };
        }
        Some(seen)
    }
}

pub(super) fn text_of(value: &Value) -> Option<String> {
    match value {
        Value::String(text) => Some(text.value().clone()),
        Value::Integer(number) => Some(number.display_repr().into_owned()),
        Value::Float(number) => Some(number.display_repr().into_owned()),
        Value::Boolean(flag) => Some(flag.value().to_string()),
        Value::Array(array) => {
            let texts: Option<Vec<String>> = array.iter().map(text_of).collect();
            texts.map(|texts| texts.join(", "))
        }
        Value::Datetime(_) | Value::InlineTable(_) => None,
    }
}
