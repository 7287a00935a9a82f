use kurbo::Point;

use super::features::{Hole, Measures};
use super::holes::Spotted;
use super::spread::Estimates;

/// A nail hole as it was measured.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NailHole {
    /// Where it is.
    pub hole: Hole,
    /// The standard uncertainty of x and of y of its centre, in mm.
    pub unsure: f64,
    /// What of it is its own: camera, thickness and the frame of the shoe left out.
    pub own: f64,
    /// From the outer edge to the middle of the groove beside it, in mm.
    pub groove: f64,
}

/// The holes on the left from the toe back, then those on the right, with how sure each is: by
/// how sharply it shows, and by camera, thickness and the frame of the shoe. `grooves` are the
/// middles of the grooves that they are in; where the toe is doubtful, all of them may be off by
/// `toe_off` with it, a standard deviation in mm.
pub fn nail_holes(
    measures: &Measures,
    spotted: &[Spotted],
    grooves: &[Vec<Point>],
    estimates: &Estimates,
    toe_off: f64,
) -> Vec<NailHole> {
    let both = spotted.iter().zip(&estimates.places);
    let holes = both.filter_map(|(spotted, [across, back])| {
        let shared = f64::midpoint(*across, *back);
        let middles = grooves.iter().flatten();
        let beside = middles.min_by(|one, other| {
            let far = |at: &Point| at.distance(spotted.centre);
            far(one).total_cmp(&far(other))
        })?;
        Some(NailHole {
            hole: measures.hole(spotted.centre).ok()?,
            unsure: (spotted.unsure.powi(2) + shared).sqrt().hypot(toe_off),
            own: spotted.unsure,
            groove: measures.hole(*beside).ok()?.to_edge,
        })
    });
    let mut holes: Vec<NailHole> = holes.collect();
    holes.sort_by(|one, other| {
        let sides = one.hole.side.cmp(&other.hole.side);
        sides.then(one.hole.along.total_cmp(&other.hole.along))
    });
    holes
}
