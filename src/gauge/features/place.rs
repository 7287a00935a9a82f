use kurbo::Point;

use super::Refused;
use super::frame::{Both, Side};
use super::shoe::Shoe;

/// A nail hole by its centre.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Hole {
    /// The branch it is in.
    pub side: Side,
    /// Its centre in the shoe's frame.
    pub centre: Point,
    /// Shortest distance from its centre to the outer outline, in mm.
    pub to_edge: f64,
    /// Length along the outer outline from the toe to the foot of the perpendicular, in mm.
    pub along: f64,
}

/// The nail holes of both branches, each from the toe back.
#[derive(Debug, Clone, PartialEq)]
pub struct NailHoles {
    /// The holes.
    pub holes: Both<Vec<Hole>>,
    /// From the centre of each but the last to that of the next, in mm.
    pub gaps: Both<Vec<f64>>,
    /// How far the right hole lies from the mirror image of the left one, pair by pair from
    /// the toe back, as far as both branches have holes.
    pub mismatch: Vec<Mismatch>,
}

/// Where a right hole lies, seen from the mirror image of the left one, in mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Mismatch {
    /// Further out from the mirror axis.
    pub out: f64,
    /// Further back.
    pub back: f64,
}

impl Mismatch {
    /// How far apart they lie in all.
    pub fn distance(&self) -> f64 {
        self.out.hypot(self.back)
    }
}

/// Where a fuller ends or begins.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FullerEnd {
    /// The branch it is in.
    pub side: Side,
    /// The place, in the shoe's frame.
    pub place: Point,
    /// Length along the outer outline from the toe to the foot of the perpendicular, as a
    /// share of the branch's outer length.
    pub share: f64,
}

impl Hole {
    pub(super) fn of(shoe: &Shoe, centre: Point) -> Result<Self, Refused> {
        let centre = on_steel(shoe, centre, "the centre of a nail hole")?;
        let (side, share) = share(shoe, centre);
        Ok(Self {
            side,
            centre,
            to_edge: shoe.ring.nearest(centre, &mut 0).distance(),
            along: share * shoe.branch_length(side),
        })
    }
}

impl NailHoles {
    pub(super) fn of(shoe: &Shoe, centres: &[Point]) -> Result<Self, Refused> {
        let holes = centres.iter().map(|centre| Hole::of(shoe, *centre));
        let mut holes: Vec<Hole> = holes.collect::<Result<_, _>>()?;
        holes.sort_by(|one, other| one.along.total_cmp(&other.along));
        let (left, right): (Vec<Hole>, _) =
            holes.into_iter().partition(|hole| hole.side == Side::Left);
        let mismatch = left.iter().zip(&right).map(|(left, right)| Mismatch {
            out: right.centre.x + left.centre.x,
            back: right.centre.y - left.centre.y,
        });
        Ok(Self {
            gaps: Both {
                left: gaps(&left),
                right: gaps(&right),
            },
            mismatch: mismatch.collect(),
            holes: Both { left, right },
        })
    }
}

impl FullerEnd {
    pub(super) fn of(shoe: &Shoe, end: Point) -> Result<Self, Refused> {
        let place = on_steel(shoe, end, "the end of the fuller")?;
        let (side, share) = share(shoe, place);
        Ok(Self { side, place, share })
    }
}

/// The place in the shoe's frame, if there is steel around it.
fn on_steel(shoe: &Shoe, at: Point, what: &'static str) -> Result<Point, Refused> {
    if !at.is_finite() {
        return Err(Refused::NotANumber(what));
    }
    let place = shoe.frame.into_shoe(at);
    let is_open = shoe.inner.iter().any(|inner| inner.is_around(place));
    if shoe.ring.is_around(place) && !is_open {
        Ok(place)
    } else {
        Err(Refused::Outside(what))
    }
}

/// The branch of a place, and the share of it from the toe to the place's foot on the outer
/// edge.
fn share(shoe: &Shoe, place: Point) -> (Side, f64) {
    shoe.share(shoe.branches.nearest(place, &mut 0).along)
}

fn gaps(holes: &[Hole]) -> Vec<f64> {
    let next = holes.iter().skip(1);
    let pairs = holes.iter().zip(next);
    pairs
        .map(|(one, other)| one.centre.distance(other.centre))
        .collect()
}
