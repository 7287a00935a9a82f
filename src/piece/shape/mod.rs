//! The made shoe, drawn from its numbers.
//!
//! *Frame.* Millimetres; ground side, toe up: the middle of the toe is the origin, y runs
//! back to the heels, x to the right. Seen so, the outer branch of a near foot is the right
//! one. The middle of the toe and of the heels lie on x = 0; the [`mirror_axis`] of a shoe with a
//! fuller outer branch lies beside it.
//!
//! *Shape.* The outer edge is a toe arc of the radius asked for, 35 degrees to each side, a
//! balanced curve to the greatest width, and a curve to the heel; the inner edge lies one
//! web inside it. Where the heels stand is found so that they are as far apart as asked for.
//! This is a drawing convention of our own, no handbook's.

mod along;
mod body;
mod chain;
mod curve;
mod edge;
mod fault;
mod measure;
mod mirror;

use kurbo::{Affine, BezPath, Point};

pub use along::{Groove, Hole, MadeClip, QUARTER_CLIP};
pub use chain::{Chain, Near};
pub use edge::Edge;
pub use fault::ShapeFault;
pub use measure::{centroid, length, plan_area};
pub use mirror::{MirrorAxis, mirror_axis, mirror_axis_of};

use super::specification::{Foot, PieceSpecification};
use body::Body;
use curve::Webs;

/// A branch of the shoe.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Branch {
    /// The one on the outside of the foot.
    Outer,
    /// The one on the inside.
    Inner,
}

/// A part of the shoe that can be pointed at.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Place {
    /// The toe.
    Toe,
    /// Both branches, from the toe to the heels.
    Branches,
    /// The free heels.
    Heels,
    /// The bar.
    Bar,
    /// The fuller.
    Fuller,
    /// The nail holes.
    NailHoles,
    /// The clips.
    Clips,
}

impl Place {
    /// Every place, with the word that files and pages use.
    pub const WORDS: &'static [(&'static str, Self)] = &[
        ("toe", Self::Toe),
        ("branches", Self::Branches),
        ("heels", Self::Heels),
        ("bar", Self::Bar),
        ("fuller", Self::Fuller),
        ("nail holes", Self::NailHoles),
        ("clips", Self::Clips),
    ];

    /// The word for it.
    pub fn word(self) -> &'static str {
        let found = Self::WORDS.iter().find(|(_, place)| *place == self);
        found.map_or("", |(word, _)| word)
    }
}

/// A made shoe as its specification draws it, in mm.
#[derive(Debug, Clone, PartialEq)]
pub struct MadeShoe {
    /// The steel from outside.
    pub outline: BezPath,
    /// What a bar closes in.
    pub opening: Option<BezPath>,
    /// Outer edge of the right branch.
    pub right: Edge,
    /// Outer edge of the left branch.
    pub left: Edge,
    /// Whether the right branch, as the shoe lies, is the outer one.
    pub outer_is_right: bool,
    /// Where the grooves of the fuller run.
    pub grooves: Vec<Groove>,
    /// The nail holes, outer branch first, each from the toe back.
    pub holes: Vec<Hole>,
    /// Back end of a rolled toe.
    pub roll: Option<BezPath>,
    /// The clips.
    pub clips: Vec<MadeClip>,
    /// Front edge of the bar: its distance from the toe.
    pub bar_front: Option<f64>,
    /// The line that both sides are measured from.
    pub axis: MirrorAxis,
    zones: Vec<(Place, BezPath)>,
    webs: Webs,
}

impl MadeShoe {
    /// The shoe that a specification asks for, for one foot.
    ///
    /// *Errors:* every reason why it cannot be, with what would do.
    pub fn of(piece: &PieceSpecification, foot: Foot) -> Result<Self, Vec<ShapeFault>> {
        let body = Body::of(piece, foot)?;
        along::check(piece, &body)?;
        let grooves = along::grooves(piece, &body);
        let shoe = Self {
            holes: along::holes(piece, &body),
            roll: along::roll(piece, &body),
            clips: along::clips(piece, &body),
            bar_front: body.bar_front,
            zones: body.zones(),
            webs: body.webs,
            outer_is_right: body.outer_is_right,
            axis: mirror_axis(&body.outline).unwrap_or(MirrorAxis::MIDDLE),
            outline: body.outline,
            opening: body.opening,
            right: body.right,
            left: body.left,
            grooves,
        };
        Ok(shoe)
    }

    /// The area of a part; `None` for one that the shoe lacks, and for fuller, holes and
    /// clips, which have shapes of their own.
    pub fn zone(&self, place: Place) -> Option<&BezPath> {
        let found = self.zones.iter().find(|(own, _)| *own == place);
        found.map(|(_, path)| path)
    }

    /// Width of the steel `along` mm from the middle of the toe, square to that edge.
    pub fn web_at(&self, edge: &Edge, along: f64) -> f64 {
        curve::web_at(edge, along, self.webs)
    }

    /// Whether the shoe has this part.
    pub fn has(&self, place: Place) -> bool {
        match place {
            Place::Fuller => !self.grooves.is_empty(),
            Place::NailHoles => !self.holes.is_empty(),
            Place::Clips => !self.clips.is_empty(),
            place => self.zone(place).is_some(),
        }
    }

    /// The shoe turned over, or the same shoe for the other foot.
    pub fn mirrored(&self) -> Self {
        let over = Affine::FLIP_X;
        Self {
            outline: over * &self.outline,
            opening: self.opening.as_ref().map(|path| over * path),
            right: self.left.mirrored(),
            left: self.right.mirrored(),
            outer_is_right: !self.outer_is_right,
            grooves: self.grooves.iter().map(Groove::mirrored).collect(),
            holes: self.holes.iter().map(Hole::mirrored).collect(),
            roll: self.roll.as_ref().map(|path| over * path),
            clips: self.clips.iter().map(MadeClip::mirrored).collect(),
            bar_front: self.bar_front,
            axis: self.axis.mirrored(),
            zones: self
                .zones
                .iter()
                .map(|(place, path)| (*place, over * path))
                .collect(),
            webs: self.webs,
        }
    }
}

/// A point on the other side of the middle line.
fn mirrored(point: Point) -> Point {
    Point::new(-point.x, point.y)
}
