use super::frame::Side;
use super::shoe::Shoe;

/// Places along each branch.
const PLACES: u32 = 300;
/// The part of each branch that a crooked bar does not move: all but the last tenth.
const FIRST: f64 = 0.9;

/// How far a branch stands out beyond the mirror image of the other one, at one place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Apart {
    /// On which branch.
    pub side: Side,
    /// How far along it, as a share of its outer length from the toe.
    pub share: f64,
    /// Distance from the outer outline of the place's mirror image, in mm: above zero where
    /// this branch stands out further than the other.
    pub by: f64,
}

/// Left against right in the best mirror axis. It turns towards a branch that is pushed out,
/// so that a push of 1 mm at a heel leaves half a mm or less on either side.
#[derive(Debug, Clone, PartialEq)]
pub struct Deviation {
    /// Root mean square over both branches, in mm.
    pub rms: f64,
    /// Where it is largest, to either side.
    pub most: Apart,
    /// Root mean square over the first 90 % of each branch, in mm.
    pub first_rms: f64,
    /// Where it is largest there.
    pub first_most: Apart,
    /// Along both branches, from the left heel corner over the toe to the right one.
    pub along: Vec<Apart>,
}

impl Deviation {
    pub(super) fn of(shoe: &Shoe) -> Option<Self> {
        let mut near = 0;
        let mut at = |side, place: u32| {
            let share = f64::from(place) / f64::from(PLACES);
            let mut image = shoe.branches.at(shoe.along(side, share));
            image.x = -image.x;
            let by = shoe.ring.signed_distance(image, &mut near);
            Apart { side, share, by }
        };
        let left: Vec<Apart> = (1..=PLACES)
            .rev()
            .map(|place| at(Side::Left, place))
            .collect();
        let right = (0..=PLACES).map(|place| at(Side::Right, place));
        let along: Vec<Apart> = left.into_iter().chain(right).collect();
        let (rms, most) = told(along.iter())?;
        let (first_rms, first_most) = told(along.iter().filter(|at| at.share <= FIRST))?;
        Some(Self {
            rms,
            most,
            first_rms,
            first_most,
            along,
        })
    }
}

/// Root mean square and the largest.
fn told<'a>(along: impl Iterator<Item = &'a Apart> + Clone) -> Option<(f64, Apart)> {
    let count: f64 = along.clone().map(|_| 1.0).sum();
    let squares: f64 = along.clone().map(|at| at.by * at.by).sum();
    let most = along.max_by(|one, other| one.by.abs().total_cmp(&other.by.abs()))?;
    Some(((squares / count).sqrt(), *most))
}
