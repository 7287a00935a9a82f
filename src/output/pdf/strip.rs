use kurbo::BezPath;

use super::ink::Ink;
use super::line::Run;
use super::tags::NodeId;
pub(super) use crate::output::look::Pen;
use crate::records::PictureBytes;

/// What a strip is a part of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// A heading.
    Heading,
    /// A paragraph, a list's item or a code.
    Text,
    /// Facts in pairs.
    Facts,
    /// A notice.
    Notice,
    /// The award.
    Verdict,
    /// Drawings.
    Drawings,
    /// Pictures.
    Pictures,
    /// What a table shows.
    Caption,
    /// A table's head, whether for the first time or again.
    Head,
    /// The heading of a group of rows.
    Group,
    /// A row.
    Row,
    /// A table's foot.
    Foot,
    /// Lines to sign on.
    Signatures,
}

/// How much a strip wants the next one on its page.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Keep {
    /// A page may end here.
    Free,
    /// It may end here if what hangs together does not fit on one.
    Wish,
    /// It may not, unless even that does not fit.
    Must,
}

/// A strip as wide as the text, the least that a page holds or does not hold.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Strip {
    /// What it is a part of.
    pub(super) kind: Kind,
    /// White above it, in points; none at the top of a page.
    pub(super) above: f32,
    /// Its height in points.
    pub(super) height: f32,
    /// Whether the next one stays with it.
    pub(super) keep: Keep,
    /// The table head to set again where a page begins with it.
    pub(super) head: Option<usize>,
    /// What is drawn on it, from its upper left corner.
    pub(super) marks: Vec<Mark>,
}

impl Strip {
    /// An empty strip.
    pub(super) fn new(kind: Kind, height: f32) -> Self {
        Self {
            kind,
            above: 0.0,
            height,
            keep: Keep::Free,
            head: None,
            marks: Vec::new(),
        }
    }
}

/// Something drawn.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Mark {
    /// Its place, in points to the right.
    pub(super) x: f32,
    /// Its place, in points down; of words, their base line.
    pub(super) y: f32,
    /// The part of the document that it is of; none for what only decorates.
    pub(super) node: Option<NodeId>,
    /// What it is.
    pub(super) what: What,
}

/// What is drawn.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum What {
    /// Words.
    Words {
        /// The words.
        run: Run,
        /// Whether paper shines around them, so that lines below do not disturb.
        has_halo: bool,
    },
    /// A shape.
    Shape(Outline),
    /// A drawing, its parts from its upper left corner.
    Figure(Vec<Mark>),
    /// A drawing of which only a frame from its upper left corner is seen.
    Cut {
        /// Its parts.
        inside: Vec<Mark>,
        /// Width and height of the frame in points.
        size: (f32, f32),
    },
    /// A picture from its upper left corner.
    Picture {
        /// Its bytes.
        bytes: PictureBytes,
        /// Width and height in points.
        size: (f32, f32),
    },
}

/// A shape, around its place.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Outline {
    /// Its edge; where it covers itself twice it is a hole.
    pub(super) path: BezPath,
    /// What fills it.
    pub(super) fill: Option<Ink>,
    /// What its edge is drawn with.
    pub(super) pen: Option<Pen>,
}

/// A filled rectangle that only decorates.
pub(super) fn bar(x: f32, y: f32, width: f32, height: f32, ink: Ink) -> Mark {
    let corner = |value: f32| f64::from(value);
    let rect = kurbo::Rect::new(0.0, 0.0, corner(width), corner(height));
    Mark {
        x,
        y,
        node: None,
        what: What::Shape(Outline {
            path: kurbo::Shape::to_path(&rect, 0.1),
            fill: Some(ink),
            pen: None,
        }),
    }
}
