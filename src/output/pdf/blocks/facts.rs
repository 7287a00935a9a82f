use super::cells::{IN_TABLE, ROW_LEADING};
use super::prose::after_heading;
use super::{BODY, LEADING, Lay, SMALL, SMALL_LEADING, bold};
use crate::output::pdf::line::Span;
use crate::output::pdf::rows::{Column, flowing, hold, rows};
use crate::output::pdf::strip::{Keep, Kind, Strip};
use crate::output::pdf::tags::{NodeId, Role};
use crate::output::pdf::words::Measured;
use crate::sheet::Fact;

/// White between columns.
const GUTTER: f32 = 16.0;
/// The least width of a column.
const LEAST: f32 = 112.0;

/// Facts in columns, four on a page and three on a card, label over value. One whose value
/// would take more than two lines there takes as many columns as put it into one line.
pub(super) fn lay(lay: &mut Lay<'_>, facts: &[Fact]) {
    let list = lay.node(lay.root, Role::List { has_discs: false });
    let has_four = lay.width >= 4.0 * LEAST + 3.0 * GUTTER;
    let count: u8 = if has_four { 4 } else { 3 };
    let one = (lay.width + GUTTER) / f32::from(count);
    let across = |columns: u8| one * f32::from(columns) - GUTTER;
    let mut row: Vec<Placed<'_>> = Vec::new();
    let mut taken = 0;
    let mut above = after_heading(lay);
    for fact in facts {
        let value = Measured::of(lay.faces, &[Span::new(&fact.value, bold(BODY))]);
        let fits = |columns: &u8| {
            let lines = value.lines(across(*columns));
            lines <= if *columns == 1 { 2 } else { 1 }
        };
        let columns = (1..=count).find(fits).unwrap_or(count);
        if taken + columns > count {
            above = lay_row(lay, list, &row, above);
            row.clear();
            taken = 0;
        }
        row.push(Placed {
            fact,
            x: one * f32::from(taken),
            width: across(columns),
        });
        taken += columns;
    }
    if !row.is_empty() {
        lay_row(lay, list, &row, above);
    }
}

/// Facts one behind the other, as a paragraph in the type of tables.
pub(super) fn series(lay: &mut Lay<'_>, facts: &[Fact]) {
    let list = lay.node(lay.root, Role::List { has_discs: false });
    let (mut spans, mut nodes) = (Vec::new(), Vec::new());
    for fact in facts {
        let item = lay.node(Some(list), Role::Item);
        nodes.push(lay.node(Some(item), Role::Label));
        spans.push(Span::new(&format!("{}: ", fact.label), bold(IN_TABLE)));
        nodes.push(lay.node(Some(item), Role::Body));
        spans.push(Span::new(&format!("{}. ", fact.value), IN_TABLE));
    }
    let width = lay.width;
    let column = lay.column(&spans, nodes, 0.0, width);
    let strips = flowing(&column, ROW_LEADING, Kind::Text);
    lay.push(strips, after_heading(lay));
}

/// A fact with its place in a row.
struct Placed<'a> {
    fact: &'a Fact,
    x: f32,
    width: f32,
}

/// Lays a row and gives the white above the next one.
fn lay_row(lay: &mut Lay<'_>, list: NodeId, row: &[Placed<'_>], above: f32) -> f32 {
    let (mut labels, mut values): (Vec<Column>, Vec<Column>) = (Vec::new(), Vec::new());
    for Placed { fact, x, width } in row {
        let item = lay.node(Some(list), Role::Item);
        let label = lay.node(Some(item), Role::Label);
        let value = lay.node(Some(item), Role::Body);
        let mut spans = vec![Span::new(&fact.label, SMALL)];
        labels.push(lay.column(&spans, vec![label], *x, *width));
        spans = vec![Span::new(&fact.value, bold(BODY))];
        values.push(lay.column(&spans, vec![value], *x, *width));
    }
    let mut strips: Vec<Strip> = rows(&labels, SMALL_LEADING, Kind::Facts);
    hold(&mut strips, Keep::Must);
    strips.extend(rows(&values, LEADING, Kind::Facts));
    lay.push(strips, above);
    5.0
}
