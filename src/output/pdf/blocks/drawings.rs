use super::prose::after_heading;
use super::{GAP, Lay, SMALL, SMALL_LEADING};
use crate::chart::{Class, Drawing, Shape};
use crate::output::pdf::drawing::{alt, drawn, height};
use crate::output::pdf::line::Span;
use crate::output::pdf::rows::{Column, hold, rows};
use crate::output::pdf::strip::{Keep, Kind, Mark, Strip, What};
use crate::output::pdf::tags::{NodeId, Role};
use crate::sheet::Block;

/// A drawing that is so many times as wide as high is a ruler, which takes the whole width:
/// several of them are compared one below the other.
const RULER: f64 = 10.0;
/// Drawings of which one is so many times as high as another do not stand on one line.
const UNLIKE: f32 = 1.6;
/// White between a drawing and its title.
const ABOVE_TITLE: f32 = 3.0;
/// A title of more lines than that may go on on the next page.
const TITLE_LINES: usize = 8;
/// What is higher than that, in points, does not stand beside a drawing.
const BESIDE: f32 = 240.0;
/// White between drawings.
pub(super) const GUTTER: f32 = 16.0;
/// Width of a QR code: 26 mm of it are dark, as on the printed page.
const CODE: f32 = 32.0 * 72.0 / 25.4;
/// How high a drawing may be, of a page's text.
const MOST: f32 = 0.4;
/// The same of three on one line: a scored sheet's criteria begin below them on its first page.
const MOST_OF_THREE: f32 = 0.13;

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

/// A drawing with blocks at its right. Long ones stand below it, where they can go on on
/// the next page.
pub(super) fn beside(lay: &mut Lay<'_>, drawing: &Drawing, blocks: &[Block]) {
    let across = width(lay, drawing, 2);
    let x = across + GUTTER;
    let above = after_heading(lay);
    let own = captioned(lay, drawing, 0.0, across);
    let mut strip = hung(vec![own]);
    let said = narrower(lay, lay.width - x, blocks);
    let high: f32 = said.iter().map(|line| line.above + line.height).sum();
    if high > BESIDE {
        lay.push(vec![strip], above);
        return lay.push(said, GAP);
    }
    let mut down = 0.0;
    for line in said {
        down += line.above;
        let marks = line.marks.into_iter();
        let marks = marks.map(|mark| Mark {
            x: mark.x + x,
            ..mark
        });
        add(&mut strip, marks.collect(), down);
        down += line.height;
    }
    strip.height = strip.height.max(down);
    lay.push(vec![strip], above);
}

/// Blocks laid over this width.
fn narrower(lay: &mut Lay<'_>, width: f32, blocks: &[Block]) -> Vec<Strip> {
    let whole = std::mem::replace(&mut lay.width, width);
    let before = std::mem::take(&mut lay.strips);
    lay.blocks(blocks);
    lay.width = whole;
    let mut said = std::mem::replace(&mut lay.strips, before);
    if let Some(first) = said.first_mut() {
        first.above = 0.0;
    }
    said
}

/// How wide a drawing is set that is one of `count`.
fn width(lay: &Lay<'_>, drawing: &Drawing, count: usize) -> f32 {
    let is = |wanted| drawing.shapes.iter().any(|shape| is_of(shape, wanted));
    let across = |columns: f32| (lay.width - GUTTER * (columns - 1.0)) / columns;
    let width = if is(Class::CodeDark) {
        CODE
    } else if is(Class::Chance) || drawing.width > RULER * drawing.height {
        across(1.0)
    } else if count < 3 || count == 4 {
        across(2.0)
    } else {
        across(3.0)
    };
    let high = height(drawing, width);
    let is_of_three = count == 3 || count > 4;
    let most = lay.page * if is_of_three { MOST_OF_THREE } else { MOST };
    if high > most {
        width * most / high
    } else {
        width
    }
}

fn is_of(shape: &Shape, wanted: Class) -> bool {
    matches!(shape, Shape::Path { class, .. } | Shape::Rect { class, .. } if *class == wanted)
}

/// Lays a row and gives the white above the next one.
fn lay_row(lay: &mut Lay<'_>, row: &[(&Drawing, f32)], above: f32) -> f32 {
    let mut set = Vec::new();
    let mut x = 0.0;
    for (drawing, width) in row {
        set.push(captioned(lay, drawing, x, *width));
        x += width + GUTTER;
    }
    let heights = || set.iter().map(|(own, _)| own.height);
    let (low, high) = (
        heights().fold(f32::INFINITY, f32::min),
        heights().fold(0.0, f32::max),
    );
    let is_short = set
        .iter()
        .all(|(_, title)| title.lines.len() <= TITLE_LINES);
    let strips = if UNLIKE * low < high && is_short {
        vec![hung(set)]
    } else {
        stood(set, high, Kind::Drawings)
    };
    lay.push(strips, above);
    10.0
}

/// A drawing and its title.
fn captioned(lay: &mut Lay<'_>, drawing: &Drawing, x: f32, width: f32) -> (Strip, Column) {
    let own = figure(lay, lay.root, drawing, x, width);
    let node = lay.node(lay.root, Role::Paragraph);
    let spans = [Span::new(&drawing.title, SMALL)];
    (own, lay.column(&spans, vec![node], x, width))
}

/// Drawings that stand on one line `high` points down, their titles below it.
pub(super) fn stood(set: Vec<(Strip, Column)>, high: f32, kind: Kind) -> Vec<Strip> {
    let mut strip = Strip::new(kind, high);
    let mut titles = Vec::new();
    for (own, title) in set {
        add(&mut strip, own.marks, high - own.height);
        titles.push(title);
    }
    let mut strips = vec![strip];
    let mut under = rows(&titles, SMALL_LEADING, kind);
    if let Some(first) = under.first_mut() {
        first.above = ABOVE_TITLE;
    }
    strips.append(&mut under);
    if let [held @ .., _] = strips.as_mut_slice() {
        hold(held, Keep::Must);
    }
    strips
}

/// Drawings of quite different heights: all begin on one line, each has its title close
/// below it.
fn hung(set: Vec<(Strip, Column)>) -> Strip {
    let mut strip = Strip::new(Kind::Drawings, 0.0);
    for (own, title) in set {
        add(&mut strip, own.marks, 0.0);
        put_rows(
            &mut strip,
            &[title],
            SMALL_LEADING,
            own.height + ABOVE_TITLE,
        );
    }
    strip
}

/// Puts lines on a strip from `down` on, and makes it as high as they need.
fn put_rows(strip: &mut Strip, columns: &[Column], leading: f32, mut down: f32) {
    for line in rows(columns, leading, Kind::Drawings) {
        add(strip, line.marks, down);
        down += line.height;
    }
    strip.height = strip.height.max(down);
}

fn add(strip: &mut Strip, marks: Vec<Mark>, down: f32) {
    strip.marks.extend(marks.into_iter().map(|mark| Mark {
        y: mark.y + down,
        ..mark
    }));
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
