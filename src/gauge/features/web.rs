use kurbo::{Point, Vec2};

use super::Refused;
use super::frame::{Both, Side};
use super::shoe::Shoe;

/// How far to each side the outline's direction is taken over, as a share of the branch: about
/// 3 mm.
const TANGENT: f64 = 0.017;
/// A ray begins this far outside, as a share of the shoe's width: about half a mm.
const OUTSIDE: f64 = 0.004;
/// More steel than this share of the shoe's width is no web.
const MOST: f64 = 0.5;

/// Shares of a branch's outer length, from the toe, at which webs are measured.
pub(super) const TOE_QUARTER: f64 = 0.25;
pub(super) const QUARTER: f64 = 0.5;
pub(super) const HEEL: f64 = 0.8;

/// Width of the steel in mm, square to the outer edge.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Webs {
    /// On the mirror axis, along it.
    pub toe: f64,
    /// At 25 % of each branch's outer length from the toe.
    pub toe_quarters: Both<f64>,
    /// At 50 %.
    pub quarters: Both<f64>,
    /// At 80 %.
    pub heels: Both<f64>,
}

impl Webs {
    /// # Errors
    ///
    /// [`Refused::Missing`] where the inner edge is not met.
    pub(super) fn of(shoe: &Shoe) -> Result<Self, Refused> {
        let both = |share| Both::try_from(|side| across(shoe, side, share));
        Ok(Self {
            toe: steel(shoe, Point::ZERO, Vec2::new(0.0, 1.0))?,
            toe_quarters: both(TOE_QUARTER)?,
            quarters: both(QUARTER)?,
            heels: both(HEEL)?,
        })
    }
}

fn across(shoe: &Shoe, side: Side, share: f64) -> Result<f64, Refused> {
    let (edge, inward) = inward(shoe, side, share);
    steel(shoe, edge, inward)
}

/// Where the web is measured at a share of a branch: from the outer edge to the inner one.
pub(super) fn web_line(shoe: &Shoe, side: Side, share: f64) -> Option<[Point; 2]> {
    let (edge, inward) = inward(shoe, side, share);
    let web = steel(shoe, edge, inward).ok()?;
    Some([edge, edge + inward * web])
}

/// A place on the outer edge and the way square to it into the steel.
fn inward(shoe: &Shoe, side: Side, share: f64) -> (Point, Vec2) {
    let point = |share| shoe.branches.at(shoe.along(side, share));
    // Away from the toe the right branch turns the way of the clock, the left one against it.
    let way: Vec2 = point(share + TANGENT) - point(share - TANGENT);
    let inward = Vec2::new(-way.y, way.x).normalize() * side.sign();
    (point(share), inward)
}

fn steel(shoe: &Shoe, edge: Point, inward: Vec2) -> Result<f64, Refused> {
    let from = edge - inward * (OUTSIDE * shoe.width);
    let found = shoe.steel(from, inward);
    let found = found.filter(|web| *web < MOST * shoe.width);
    found.ok_or(Refused::Missing("the inner edge"))
}
