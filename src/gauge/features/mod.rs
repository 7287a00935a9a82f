//! What there is to measure of a shoe, from its outlines.
//!
//! *Input:* polygons in mm on the plane of the ground face, in a frame whose y runs up for who
//! looks down on the ground face with x to the right, as the sheet's does. Of an open shoe the
//! outer outline is the whole U; with an inner one it is a bar shoe.
//!
//! *Frame of the shoe:* its origin is where the mirror axis crosses the outer outline at the
//! toe, y runs along the axis to the heels, x to the right of who looks down on the ground face
//! with the toe up. A heel corner is the point of the outer outline furthest along 45 degrees
//! between x and y, to either side; a branch is the outer edge from toe to heel corner.
//!
//! *Invariant.* Places are shares of the branch or of the shoe, so that shifted, turned or
//! scaled outlines give the same measures, shifted, turned or scaled. What is no outline of a
//! shoe is [`Refused`], never measured by halves.

mod axis;
mod check;
mod circle;
mod deviation;
mod frame;
mod heels;
mod hidden;
mod lines;
mod place;
mod refused;
mod rests;
mod round;
mod shoe;
mod web;
mod zone;

use kurbo::{Point, Vec2};

pub use circle::Circle;
pub use deviation::{Apart, Deviation};
pub use frame::{Both, Frame, Side};
pub use heels::{Bar, Heels};
pub use place::{FullerEnd, Hole, Mismatch, NailHoles};
pub use refused::Refused;
pub use web::Webs;
pub use zone::{Zone, minimum_zone};

use check::Outlines;
use round::Round;
use shoe::Shoe;

use crate::piece::Chain;

/// The toe is the part of the outer edge within so many radians of the way to the toe, seen
/// from half the width behind it: 35 degrees.
pub(super) const TOE: f64 = 35.0 * std::f64::consts::PI / 180.0;
/// Steps along the branches that the toe circle is fitted to.
const STEPS: u32 = 1_000;

/// The measures of a shoe, in mm and radians.
#[derive(Debug, Clone, PartialEq)]
pub struct Measures {
    /// How the shoe lies; its y is the mirror axis.
    pub frame: Frame,
    /// Left against right.
    pub deviation: Deviation,
    /// Extent of the outer outline across the mirror axis.
    pub width: f64,
    /// Extent along it.
    pub length: f64,
    /// Length along the outer outline from the toe to each heel corner.
    pub branches: Both<f64>,
    /// The heel corners, in the shoe's frame.
    pub heel_corners: Both<Point>,
    /// Widths of the steel.
    pub webs: Webs,
    /// How it ends behind.
    pub heels: Heels,
    /// Circle through the outer edge within 35 degrees of the way to the toe, seen from half
    /// the width behind it, in the shoe's frame.
    pub toe_circle: Circle,
    shoe: Shoe,
}

/// Measures a shoe from its outlines, in mm, with the rough way to the toe where it is known;
/// where not, the narrower end is taken for the toe.
///
/// # Errors
///
/// What is no outline of a shoe: too few points, a coordinate that is none, no area, sides that
/// cross, a toe that cannot be told, or an edge that a measure needs and that is not there.
pub fn measure(
    outer: &[Point],
    inner: &[Vec<Point>],
    to_toe: Option<Vec2>,
) -> Result<Measures, Refused> {
    let outlines = Outlines::of(outer, inner)?;
    measured(&outlines, axis::frame(&outlines.outer, to_toe)?)
}

/// Measures a shoe that lies very nearly as another one does, whose frame is known; as
/// [`measure`], in less time, and with an axis that leaves out what cannot be relied on.
///
/// *Shape:* `unclear` has places of the outlines, in mm, that cannot be relied on.
///
/// # Errors
///
/// Those of [`measure`].
pub fn measure_near(
    outer: &[Point],
    inner: &[Vec<Point>],
    near: &Frame,
    unclear: &[Point],
) -> Result<Measures, Refused> {
    let outlines = Outlines::of(outer, inner)?;
    measured(&outlines, axis::frame_near(&outlines.outer, near, unclear)?)
}

fn measured(outlines: &Outlines, frame: Frame) -> Result<Measures, Refused> {
    let shoe = Shoe::of(outlines, frame)?;
    let behind = Point::new(0.0, shoe.width / 2.0);
    let toe = shoe.branches.spread(STEPS);
    let toe = toe.filter(|at| (at.x - behind.x).atan2(behind.y - at.y).abs() <= TOE);
    let toe_circle = Circle::fit(&toe.collect::<Vec<Point>>());
    Ok(Measures {
        frame: shoe.frame,
        deviation: Deviation::of(&shoe).ok_or(Refused::Missing("the mirror axis"))?,
        width: shoe.width,
        length: shoe.length,
        branches: Both {
            left: shoe.branch_length(Side::Left),
            right: shoe.branch_length(Side::Right),
        },
        heel_corners: shoe.corners(),
        webs: Webs::of(&shoe)?,
        heels: Heels::of(&shoe)?,
        toe_circle: toe_circle.ok_or(Refused::Missing("the toe"))?,
        shoe,
    })
}

/// How a shoe lies, from its outer outline alone; see [`measure`] for the rest.
///
/// # Errors
///
/// What is no outline of a shoe, or one whose toe cannot be told.
pub fn frame(outer: &[Point], to_toe: Option<Vec2>) -> Result<Frame, Refused> {
    axis::frame(&Outlines::of(outer, &[])?.outer, to_toe)
}

/// Both branches of an outer edge, from the left heel corner over the toe to the right one, and
/// the rest, from there back to the left one, in a frame of the shoe.
///
/// # Errors
///
/// What is no outline of a shoe.
pub(super) fn branches_of(outer: &[Point], frame: &Frame) -> Result<(Chain, Chain), Refused> {
    let outlines = Outlines::of(outer, &[])?;
    let Round { branches, rest, .. } = Round::of(&outlines.outer, frame)?;
    Ok((branches, rest))
}

impl Measures {
    /// A nail hole by its centre, in the frame of the input.
    ///
    /// # Errors
    ///
    /// A centre that does not lie on the steel.
    pub fn hole(&self, centre: Point) -> Result<Hole, Refused> {
        Hole::of(&self.shoe, centre)
    }

    /// All nail holes by their centres, in any order, in the frame of the input.
    ///
    /// # Errors
    ///
    /// A centre that does not lie on the steel.
    pub fn holes(&self, centres: &[Point]) -> Result<NailHoles, Refused> {
        NailHoles::of(&self.shoe, centres)
    }

    /// An end of the fuller by its place on the middle of the groove, in the frame of the
    /// input.
    ///
    /// # Errors
    ///
    /// A place that does not lie on the steel.
    pub fn fuller_end(&self, end: Point) -> Result<FullerEnd, Refused> {
        FullerEnd::of(&self.shoe, end)
    }
}
