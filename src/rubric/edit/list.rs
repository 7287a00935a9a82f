//! Items in and out of lists, written as blocks or in brackets.

use toml_edit::{Array, ArrayOfTables, DocumentMut, InlineTable, Item, Table, Value};

use super::path::{Path, Step};
use super::walk::Node;
use super::write::{Fields, fill, indent_of, last_line};

pub(super) fn remove(document: &mut DocumentMut, at: &Path) -> Option<()> {
    let (above, last) = at.parent()?;
    let node = Node::Table(document.as_table_mut()).down(above.steps())?;
    match last {
        Step::Key(key) => node.table()?.remove(key).map(|_| ()),
        Step::At(at) => match lists(node)? {
            List::Blocks(tables) => {
                (*at < tables.len()).then(|| tables.remove(*at))?;
                Some(())
            }
            List::Brackets(array) => {
                let removed = (*at < array.len()).then(|| array.remove(*at))?;
                if let (0, Some(first)) = (*at, array.get_mut(0)) {
                    let prefix = removed.decor().prefix().cloned().unwrap_or_default();
                    first.decor_mut().set_prefix(prefix);
                }
                Some(())
            }
        },
    }
}

pub(super) fn insert(document: &mut DocumentMut, at: &Path, fields: &Fields) -> Option<()> {
    let (list, Step::At(place)) = at.parent()? else {
        return None;
    };
    let place = *place;
    let (above, Step::Key(key)) = list.parent()? else {
        return None;
    };
    let node = Node::Table(document.as_table_mut()).down(above.steps())?;
    let is_block = matches!(node, Node::Table(_) | Node::Item(Item::Table(_)));
    let table = node.table()?;
    if !table.contains_key(key) {
        let list = if is_block && key != "bands" && key != "descriptors" {
            Item::ArrayOfTables(ArrayOfTables::new())
        } else {
            Item::Value(Value::Array(Array::new()))
        };
        table.insert(key, list);
    }
    match lists(Node::Item(table.get_mut(key)?))? {
        List::Blocks(tables) => {
            (place <= tables.len()).then_some(())?;
            let block = block(tables, place, fields);
            tables.insert(place, block);
        }
        List::Brackets(array) => {
            (place <= array.len()).then_some(())?;
            in_brackets(array, place, fields);
        }
    }
    Some(())
}

pub(super) fn relocate(document: &mut DocumentMut, at: &Path, to: usize) -> Option<()> {
    let (list, Step::At(from)) = at.parent()? else {
        return None;
    };
    let node = Node::Table(document.as_table_mut()).down(list.steps())?;
    match lists(node)? {
        List::Blocks(tables) => {
            (*from < tables.len() && to < tables.len()).then_some(())?;
            let mut moved = tables.remove(*from);
            tables.insert(to, std::mem::take(&mut moved));
            // Without numbers of their own they stand as the list has them.
            tables.iter_mut().for_each(forget_places);
        }
        List::Brackets(array) => {
            (*from < array.len() && to < array.len()).then_some(())?;
            let around: Vec<_> = array.iter().map(|value| value.decor().clone()).collect();
            let moved = array.remove(*from);
            array.insert_formatted(to, moved);
            for (value, decor) in array.iter_mut().zip(around) {
                *value.decor_mut() = decor;
            }
        }
    }
    Some(())
}

enum List<'d> {
    Blocks(&'d mut ArrayOfTables),
    Brackets(&'d mut Array),
}

fn lists(node: Node<'_>) -> Option<List<'_>> {
    match node {
        Node::Item(Item::ArrayOfTables(tables)) => Some(List::Blocks(tables)),
        Node::Item(Item::Value(Value::Array(array))) | Node::Value(Value::Array(array)) => {
            Some(List::Brackets(array))
        }
        _ => None,
    }
}

/// A block that stands in the file as its neighbour does.
fn block(tables: &ArrayOfTables, place: usize, fields: &Fields) -> Table {
    let neighbour = tables.get(place.saturating_sub(1)).or(tables.get(0));
    let before = neighbour.and_then(|table| table.decor().prefix()?.as_str());
    let header = last_line(before.unwrap_or("")).to_owned();
    let indent = neighbour
        .and_then(|table| indent_of(table, table.iter().next()?.0))
        .unwrap_or_default();
    let mut table = Table::new();
    table.decor_mut().set_prefix(format!("\n{header}"));
    fill(&mut table, fields);
    for (mut key, _) in table.iter_mut() {
        key.leaf_decor_mut().set_prefix(indent.clone());
    }
    table
}

/// An item in brackets, on a line of its own where its neighbour has one.
fn in_brackets(array: &mut Array, place: usize, fields: &Fields) {
    let mut table = InlineTable::new();
    fill(&mut table, fields);
    let mut value = Value::InlineTable(table);
    let neighbour = array.get(place.saturating_sub(1)).or(array.get(0));
    let prefix = neighbour.and_then(|value| value.decor().prefix()?.as_str());
    let has_lines = prefix.is_some_and(|prefix| prefix.contains('\n'));
    let prefix = match prefix {
        Some(prefix) if has_lines => format!("\n{}", last_line(prefix)),
        _ if place > 0 => " ".to_owned(),
        _ => String::new(),
    };
    value.decor_mut().set_prefix(prefix);
    let is_last = place == array.len();
    let end = place.checked_sub(1).and_then(|last| array.get_mut(last));
    if let Some(last) = end.filter(|_| is_last) {
        // What stood before the closing bracket stays there.
        let suffix = last.decor().suffix().cloned().unwrap_or_default();
        last.decor_mut().set_suffix("");
        value.decor_mut().set_suffix(suffix);
    }
    array.insert_formatted(place, value);
    if let (0, Some(next)) = (place, array.get_mut(1))
        && !has_lines
    {
        next.decor_mut().set_prefix(" ");
    }
}

fn forget_places(table: &mut Table) {
    table.set_position(None);
    for (_, item) in table.iter_mut() {
        match item {
            Item::Table(table) => forget_places(table),
            Item::ArrayOfTables(tables) => tables.iter_mut().for_each(forget_places),
            _ => {}
        }
    }
}
