use super::prose::after_heading;
use super::{BODY, LEADING, Lay, SMALL, SMALL_LEADING, bold};
use crate::output::pdf::line::Span;
use crate::output::pdf::rows::{Column, hold, rows};
use crate::output::pdf::strip::{Keep, Kind, Strip};
use crate::output::pdf::tags::{NodeId, Role};
use crate::output::pdf::words::Measured;
use crate::sheet::Fact;

/// White between columns.
const GUTTER: f32 = 16.0;
/// The least width of a column.
const LEAST: f32 = 112.0;

/// Facts in columns, four on a page and three on a card, label over value. One whose value
/// would take more than two lines there has a row of its own.
pub(super) fn lay(lay: &mut Lay<'_>, facts: &[Fact]) {
    let list = lay.node(lay.root, Role::List { has_discs: false });
    let has_four = lay.width >= 4.0 * LEAST + 3.0 * GUTTER;
    let (count, parts) = if has_four { (4, 4.0) } else { (3, 3.0) };
    let width = (lay.width + GUTTER) / parts - GUTTER;
    let mut row: Vec<&Fact> = Vec::new();
    let mut above = after_heading(lay);
    for fact in facts {
        let value = Span::new(&fact.value, bold(BODY));
        let is_long = Measured::of(lay.faces, &[value]).line() > 1.8 * width;
        if row.len() == count || (is_long && !row.is_empty()) {
            above = lay_row(lay, list, &row, width, above);
            row.clear();
        }
        row.push(fact);
        if is_long {
            let whole = lay.width;
            above = lay_row(lay, list, &row, whole, above);
            row.clear();
        }
    }
    if !row.is_empty() {
        lay_row(lay, list, &row, width, above);
    }
}

/// Lays a row and gives the white above the next one.
fn lay_row(lay: &mut Lay<'_>, list: NodeId, row: &[&Fact], width: f32, above: f32) -> f32 {
    let (mut labels, mut values): (Vec<Column>, Vec<Column>) = (Vec::new(), Vec::new());
    let mut x = 0.0;
    for fact in row {
        let item = lay.node(Some(list), Role::Item);
        let label = lay.node(Some(item), Role::Label);
        let value = lay.node(Some(item), Role::Body);
        let mut spans = vec![Span::new(&fact.label, SMALL)];
        labels.push(lay.column(&spans, vec![label], x, width));
        spans = vec![Span::new(&fact.value, bold(BODY))];
        values.push(lay.column(&spans, vec![value], x, width));
        x += width + GUTTER;
    }
    let mut strips: Vec<Strip> = rows(&labels, SMALL_LEADING, Kind::Facts);
    hold(&mut strips, Keep::Must);
    strips.extend(rows(&values, LEADING, Kind::Facts));
    lay.push(strips, above);
    5.0
}
