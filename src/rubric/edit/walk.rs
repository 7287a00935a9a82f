//! Down into a document, whichever way its tables and lists are written.

use toml_edit::{Item, Table, TableLike, Value};

use super::path::Step;

/// What a path leads to.
pub(super) enum Node<'d> {
    Item(&'d mut Item),
    Table(&'d mut Table),
    Value(&'d mut Value),
}

impl<'d> Node<'d> {
    /// What `steps` lead to from here.
    pub(super) fn down(self, steps: &[Step]) -> Option<Self> {
        let Some((first, rest)) = steps.split_first() else {
            return Some(self);
        };
        match first {
            Step::Key(key) => Node::Item(self.table()?.get_mut(key)?).down(rest),
            Step::At(at) => self.item(*at)?.down(rest),
        }
    }

    /// The table here.
    pub(super) fn table(self) -> Option<&'d mut dyn TableLike> {
        match self {
            Self::Item(item) => item.as_table_like_mut(),
            Self::Table(table) => Some(table),
            Self::Value(value) => value
                .as_inline_table_mut()
                .map(|table| -> &mut dyn TableLike { table }),
        }
    }

    fn item(self, at: usize) -> Option<Self> {
        match self {
            Self::Item(Item::ArrayOfTables(tables)) => tables.get_mut(at).map(Node::Table),
            Self::Item(Item::Value(Value::Array(array))) | Self::Value(Value::Array(array)) => {
                array.get_mut(at).map(Node::Value)
            }
            _ => None,
        }
    }
}
