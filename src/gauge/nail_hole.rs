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
}

/// The holes on the left from the toe back, then those on the right, with how sure each is: by
/// how sharply it shows, and by camera, thickness and the frame of the shoe.
pub fn nail_holes(
    measures: &Measures,
    spotted: &[Spotted],
    estimates: &Estimates,
) -> Vec<NailHole> {
    let both = spotted.iter().zip(&estimates.places);
    let holes = both.filter_map(|(spotted, [across, back])| {
        let shared = f64::midpoint(*across, *back);
        Some(NailHole {
            hole: measures.hole(spotted.centre).ok()?,
            unsure: (spotted.unsure.powi(2) + shared).sqrt(),
        })
    });
    let mut holes: Vec<NailHole> = holes.collect();
    holes.sort_by(|one, other| {
        let sides = one.hole.side.cmp(&other.hole.side);
        sides.then(one.hole.along.total_cmp(&other.hole.along))
    });
    holes
}
