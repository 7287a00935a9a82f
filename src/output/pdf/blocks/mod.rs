//! Blocks become strips, a file for each kind.

mod cells;
mod drawings;
mod facts;
mod items;
mod notice;
mod pictures;
mod prose;
mod signatures;
mod table;
mod true_size;
mod verdict;
mod widths;

use super::Pictures;
use super::face::{Face, Faces};
use super::ink::Ink;
use super::line::{Span, Style, lines};
use super::paper::Format;
use super::rows::{Column, Side, flowing};
use super::strip::{Kind, Strip};
use super::tags::{NodeId, Role, Tree};
use crate::sheet::{Block, Document, with_above};

/// Text.
const BODY: Style = Style {
    face: Face::Regular,
    size: 9.25,
    ink: Ink::BLACK,
};
/// From one base line of text to the next.
const LEADING: f32 = 11.8;
/// Text of less weight.
const SMALL: Style = Style {
    face: Face::Regular,
    size: 8.0,
    ink: Ink::QUIET,
};
/// From one base line of small text to the next.
const SMALL_LEADING: f32 = 10.0;
/// White between blocks.
const GAP: f32 = 7.0;

/// The same, bold.
const fn bold(style: Style) -> Style {
    Style {
        face: Face::Bold,
        ..style
    }
}

/// A document taken apart into strips.
pub(super) struct Laid {
    /// The strips in order.
    pub(super) strips: Vec<Strip>,
    /// The table heads that strips name by number.
    pub(super) heads: Vec<Vec<Strip>>,
}

/// What blocks are laid with.
struct Lay<'a> {
    at_hand: &'a Pictures,
    faces: &'a mut Faces,
    tree: &'a mut Tree,
    root: Option<NodeId>,
    /// Width of the text in points.
    width: f32,
    /// Height of a page's text in points.
    page: f32,
    /// A millimetre of the paper, in the points that are counted here.
    mm: f32,
    strips: Vec<Strip>,
    heads: Vec<Vec<Strip>>,
}

/// Takes a document apart; its parts are added to `tree` below `root`.
pub(super) fn lay(
    document: &Document,
    at_hand: &Pictures,
    faces: &mut Faces,
    (tree, root): (&mut Tree, Option<NodeId>),
    on: Format,
) -> Laid {
    let mut lay = Lay {
        at_hand,
        faces,
        tree,
        root,
        width: on.text_width(),
        page: on.text_height(),
        mm: on.millimetre(),
        strips: Vec::new(),
        heads: Vec::new(),
    };
    prose::title(&mut lay, &document.title, &document.about);
    lay.blocks(&document.blocks);
    Laid {
        strips: lay.strips,
        heads: lay.heads,
    }
}

impl Lay<'_> {
    fn blocks(&mut self, blocks: &[Block]) {
        for (above, block) in with_above(blocks) {
            self.block(above, block);
        }
    }

    fn block(&mut self, above: Option<&Block>, block: &Block) {
        match block {
            Block::Heading { level, text } => prose::heading(self, *level, text),
            Block::Paragraph(text) => prose::paragraph(self, text),
            Block::Drawings(drawn) => drawings::lay(self, drawn),
            Block::TrueSize { drawing, otherwise } => true_size::lay(self, drawing, *otherwise),
            Block::Illustrated { drawing, beside } => drawings::beside(self, drawing, beside),
            Block::Pictures(named) => pictures::lay(self, named),
            Block::Facts(facts) => facts::lay(self, facts),
            Block::Series(facts) => facts::series(self, facts),
            Block::Verdict(verdict) => verdict::lay(self, verdict),
            Block::Notice(notice) => notice::lay(self, notice),
            Block::Table(table) => table::lay(self, table, table.repeats(above)),
            Block::Items(items) => items::lay(self, items),
            Block::Code { label, groups } => prose::code(self, label, groups),
            Block::Signatures(signs) => signatures::lay(self, signs),
        }
    }

    /// Millimetres of the paper in points.
    fn points(&self, mm: f64) -> f32 {
        use num_traits::ToPrimitive as _;
        mm.to_f32().unwrap_or(0.0) * self.mm
    }

    /// Adds a part to what is read.
    fn node(&mut self, parent: Option<NodeId>, role: Role) -> NodeId {
        self.tree.add(parent, role)
    }

    /// Adds strips with white above them.
    fn push(&mut self, mut strips: Vec<Strip>, above: f32) {
        if let Some(first) = strips.first_mut() {
            first.above = above;
        }
        self.strips.append(&mut strips);
    }

    /// Lines of text of this width from `x` on, of one part or of one for each span.
    fn column(&mut self, spans: &[Span], nodes: Vec<NodeId>, x: f32, width: f32) -> Column {
        Column {
            x,
            width,
            side: Side::Left,
            lines: lines(self.faces, spans, width),
            nodes,
        }
    }

    /// A paragraph in one style from `x` on.
    fn flow(&mut self, text: &str, style: Style, leading: f32, node: NodeId, x: f32) -> Vec<Strip> {
        let width = self.width - x;
        let column = self.column(&[Span::new(text, style)], vec![node], x, width);
        flowing(&column, leading, Kind::Text)
    }
}
