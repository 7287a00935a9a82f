use super::prose::after_heading;
use super::{Lay, SMALL, SMALL_LEADING};
use crate::chart::{Drawing, Shape};
use crate::output::pdf::drawing::{alt, drawn, height};
use crate::output::pdf::line::Span;
use crate::output::pdf::rows::{hold, rows};
use crate::output::pdf::strip::{Keep, Kind, Mark, Strip, What};
use crate::output::pdf::tags::{NodeId, Role};

/// White between drawings.
const GUTTER: f32 = 16.0;
/// Width of a QR code: 26 mm of it are dark, as on the printed page.
const CODE: f32 = 32.0 * 72.0 / 25.4;
/// How high a drawing may be, of a page's text.
const MOST: f32 = 0.4;

/// Drawings side by side, each with its title under it.
pub(super) fn lay(lay: &mut Lay<'_>, drawings: &[Drawing]) {
    let mut above = after_heading(lay);
    let mut row: Vec<(&Drawing, f32)> = Vec::new();
    let mut used = 0.0;
    for drawing in drawings {
        let width = width(lay, drawing, drawings.len());
        if !row.is_empty() && used + width > lay.width + 0.1 {
            above = lay_row(lay, &row, above);
            row.clear();
            used = 0.0;
        }
        row.push((drawing, width));
        used += width + GUTTER;
    }
    if !row.is_empty() {
        lay_row(lay, &row, above);
    }
}

/// How wide a drawing is set that is one of `count`.
fn width(lay: &Lay<'_>, drawing: &Drawing, count: usize) -> f32 {
    let is = |wanted| drawing.shapes.iter().any(|shape| is_of(shape, wanted));
    let across = |columns: f32| (lay.width - GUTTER * (columns - 1.0)) / columns;
    let width = if is("code-dark") {
        CODE
    } else if is("chance") {
        across(1.0)
    } else if count < 3 || count == 4 {
        across(2.0)
    } else {
        across(3.0)
    };
    let high = height(drawing, width);
    let most = MOST * lay.page;
    if high > most {
        width * most / high
    } else {
        width
    }
}

fn is_of(shape: &Shape, wanted: &str) -> bool {
    matches!(shape, Shape::Path { class, .. } | Shape::Rect { class, .. } if *class == wanted)
}

/// Lays a row and gives the white above the next one.
fn lay_row(lay: &mut Lay<'_>, row: &[(&Drawing, f32)], above: f32) -> f32 {
    let mut strip = Strip::new(Kind::Drawings, 0.0);
    let mut captions = Vec::new();
    let mut x = 0.0;
    for (drawing, width) in row {
        let own = figure(lay, lay.root, drawing, x, *width);
        let node = lay.node(lay.root, Role::Paragraph);
        let spans = [Span::new(&drawing.title, SMALL)];
        captions.push(lay.column(&spans, vec![node], x, *width));
        // Drawings of a row stand on one line.
        let down = own.height - strip.height;
        let (old, new) = (&mut strip.marks, own.marks);
        if down > 0.0 {
            old.iter_mut().for_each(|mark| mark.y += down);
            strip.height += down;
        }
        let short = (-down).max(0.0);
        old.extend(new.into_iter().map(|mark| Mark {
            y: mark.y + short,
            ..mark
        }));
        x += width + GUTTER;
    }
    let mut strips = vec![strip];
    let mut under = rows(&captions, SMALL_LEADING, Kind::Drawings);
    if let Some(first) = under.first_mut() {
        first.above = 3.0;
    }
    strips.append(&mut under);
    let last = strips.len().saturating_sub(1);
    if let Some(held) = strips.get_mut(..last) {
        hold(held, Keep::Must);
    }
    lay.push(strips, above);
    10.0
}

/// A strip with a drawing `width` points wide at `x`.
pub(super) fn figure(
    lay: &mut Lay<'_>,
    parent: Option<NodeId>,
    drawing: &Drawing,
    x: f32,
    width: f32,
) -> Strip {
    let node = lay.node(parent, Role::Figure { alt: alt(drawing) });
    let mut strip = Strip::new(Kind::Drawings, height(drawing, width));
    strip.marks.push(Mark {
        x,
        y: 0.0,
        node: Some(node),
        what: What::Figure(drawn(lay.faces, drawing, width)),
    });
    strip
}
