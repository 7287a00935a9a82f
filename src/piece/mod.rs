//! The made shoe as it is asked for.
//!
//! *What:* the specification of a piece, with every number that a drawing of
//! the shoe needs, [`MadeShoe`], the shape that those numbers give, and [`Feature`], the
//! names of what can be measured of one that was made. *Invariant:*
//! what a horse should wear is never decided here; a specification only says what was
//! asked for.

mod feature;
mod shape;
mod specification;

pub use feature::Feature;
pub use shape::{
    Branch, Chain, Edge, Groove, Hole, MadeClip, MadeShoe, MirrorAxis, Near, Place, QUARTER_CLIP,
    ShapeFault, centroid, length, mirror_axis, mirror_axis_of, plan_area,
};
pub use specification::{
    Bar, BarShape, Clip, ClipPlace, Finished, Foot, Fuller, FullerExtent, HeelShape, Heels,
    NailHoles, PieceSpecification, Section, ShoeKind, Stock, Toe, ToeShape, Web,
};
