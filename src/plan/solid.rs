//! How much metal is in the finished shoe, in mm³.

use kurbo::Shape as _;

use crate::piece::{MadeShoe, PieceSpecification, Place, length, plan_area};
use crate::quantity::Length;

/// Area of a groove's section over its width times depth, between 1/2 of a wedge and 1 of a box:
/// common practice, no source.
pub const GROOVE: f64 = 2.0 / 3.0;
/// Volume of a clip over base times height times thickness: half an ellipse, thinned evenly to
/// its edge. Common practice, no source.
pub const CLIP: f64 = std::f64::consts::FRAC_PI_8;

/// Volumes of a shoe, in mm³.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Solid {
    /// Plan times thickness, the bar with its own.
    pub body: f64,
    /// What the grooves of the fuller leave empty; it was pushed aside.
    pub grooves: f64,
    /// What a rolled toe leaves empty; it was pushed aside.
    pub roll: f64,
    /// The nail holes through what the grooves leave; that metal is punched out and lost.
    pub holes: f64,
    /// The clips, which stand out of the plan.
    pub clips: f64,
}

impl Solid {
    pub fn of(piece: &PieceSpecification, shoe: &MadeShoe) -> Self {
        let thick = piece.finished.thickness.to_mm();
        let bar = piece.bar.as_ref().map_or(0.0, |bar| {
            let area = shoe.zone(Place::Bar).map_or(0.0, |zone| zone.area().abs());
            area * (bar.thickness.to_mm() - thick)
        });
        let fuller = piece.fuller.as_ref();
        let groove = fuller.map_or(0.0, |fuller| groove(fuller.width, fuller.depth));
        let run: f64 = shoe.grooves.iter().map(|groove| length(&groove.path)).sum();
        let left = fuller.map_or(thick, |fuller| (thick - fuller.depth.to_mm()).max(0.0));
        let holes = shoe.holes.iter();
        let holes: f64 = holes.map(|hole| hole.size.0 * hole.size.1).sum();
        let clips = piece
            .clips
            .iter()
            .map(|clip| CLIP * clip.width.to_mm() * clip.height.to_mm() * clip.thickness.to_mm());
        Self {
            body: plan_area(shoe) * thick + bar,
            grooves: groove * run,
            roll: roll(piece, shoe),
            holes: holes * left,
            clips: clips.sum(),
        }
    }

    /// What the finished shoe holds.
    pub fn finished(&self) -> f64 {
        self.body - self.grooves - self.roll - self.holes + self.clips
    }
}

/// Area of a groove's section in mm².
pub(super) fn groove(width: Length, depth: Length) -> f64 {
    GROOVE * width.to_mm() * depth.to_mm()
}

/// What a rolled toe leaves empty: from the line where it begins the steel thins evenly to its
/// edge, and that line runs out to the edge as a parabola does, so two thirds of its depth times
/// its length are rolled.
fn roll(piece: &PieceSpecification, shoe: &MadeShoe) -> f64 {
    let toe = &piece.toe;
    let (Some(path), Some(depth), Some(edge)) = (&shoe.roll, toe.depth, toe.edge) else {
        return 0.0;
    };
    let thinner = (piece.finished.thickness.to_mm() - edge.to_mm()).max(0.0);
    2.0 / 3.0 * depth.to_mm() * length(path) * thinner / 2.0
}
