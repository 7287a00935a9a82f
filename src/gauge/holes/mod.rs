//! Nail holes in the fuller.
//!
//! *What:* along the middle of a groove the picture is looked at on two planes: about where the
//! groove's floor is, and on the paper. Through a hole one sees paper down there, and from aside
//! a part of its walls; of every place it is told from both how well a hole suits it that has
//! its centre there.
//!
//! *Invariant.* What does not suit well is no hole: none is put where one is missing in a row.

mod middle;
mod patch;
mod pick;
mod strip;
mod weights;

pub use self::pick::Spotted;

use self::middle::along;
use self::pick::pick;
use self::strip::Strip;
use super::groove::Grooves;
use super::view::View;

/// The floor of a groove lies about this share of the thickness above the paper.
///
/// *Source:* between a half and nearly three quarters of the thickness is usual for a groove's
/// depth; common practice, no source.
const FLOOR: f64 = 0.4;

/// The holes in the grooves of a shoe whose ground face is the view's plane.
pub fn holes(view: &View<'_>, grooves: &Grooves) -> Vec<Spotted> {
    let each = grooves.middles.iter().flat_map(|middle| {
        let places = along(middle);
        let strip = Strip::of(view, &places, FLOOR * view.height, grooves.paper);
        pick(&strip, &places)
    });
    each.collect()
}
