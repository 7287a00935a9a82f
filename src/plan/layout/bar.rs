//! How places of the shoe lie on the bar that it is made of.

use crate::piece::{Branch, FullerExtent, PieceSpecification};
use crate::plan::Chosen;
use crate::plan::cut::developed;
use crate::plan::inputs::Inputs;
use crate::plan::line::Lines;
use crate::plan::sizes::from_mm;
use crate::plan::solid::Solid;
use crate::plan::steel::bumped_thickness;
use crate::quantity::Length;

/// The bumped zone reaches so far past the toe nails on either side: 1/4 in. Common practice, no
/// source: over a little more than the toe nails' zone.
const PAST_NAILS: f64 = 6.35;
/// Without nails it is the middle third of the bar, where the toe is bent: common practice, no
/// source.
const WITHOUT_NAILS: f64 = 1.0 / 6.0;
/// How places of the shoe lie on the bar that it is made of, in mm.
pub(super) struct Bar<'a> {
    piece: &'a PieceSpecification,
    lines: &'a Lines,
    /// What bumping takes in.
    bump: f64,
    /// Half the bumped zone, as it is after bumping.
    zone: f64,
    /// What the fuller makes each branch longer.
    drawn: f64,
}

impl<'a> Bar<'a> {
    pub fn of(
        piece: &'a PieceSpecification,
        inputs: &Inputs,
        lines: &'a Lines,
        solid: &Solid,
        chosen: &Chosen,
    ) -> Self {
        let bump = inputs.toe_bump.to_mm();
        let mut bar = Self {
            piece,
            lines,
            bump,
            zone: WITHOUT_NAILS * chosen.length.to_mm() - bump / 2.0,
            drawn: developed::drawn_by_fuller(piece, inputs, solid) / 2.0,
        };
        if let Some(nails) = &piece.nails {
            let edge = nails.first.to_mm();
            bar.zone = bar.plain(Branch::Outer, edge) + PAST_NAILS;
        }
        bar.zone = bar.zone.max(1.0);
        bar
    }

    /// Bar from the middle of the toe to a place along the edge, before bump and fuller.
    fn plain(&self, branch: Branch, edge: f64) -> f64 {
        developed::branch_to(self.piece, self.lines.branch(branch), edge)
    }

    /// The same on the bar as it is cut: bumping has pushed the place in, and the fuller, by the
    /// part of it that lies before the place, out.
    pub fn at(&self, branch: Branch, edge: f64) -> f64 {
        let place = self.plain(branch, edge);
        let bumped = self.bump / 2.0 * (place / self.zone).min(1.0);
        place + bumped - self.drawn * self.fullered(edge)
    }

    /// The part of the fuller that lies before a place.
    fn fullered(&self, edge: f64) -> f64 {
        let Some(fuller) = &self.piece.fuller else {
            return 0.0;
        };
        let start = match fuller.extent {
            FullerExtent::ThreeQuarter => fuller.start.to_mm(),
            FullerExtent::Full => 0.0,
        };
        let run = (fuller.end.to_mm() - start).max(1e-6);
        ((edge - start) / run).clamp(0.0, 1.0)
    }

    /// Where the middle of the toe lies from the middle of the bar: the bar's ends meet in the
    /// middle of the bar of a shoe, so what one branch takes more lies on its side.
    pub fn toe(&self, left: Branch) -> f64 {
        let length = |branch: Branch| {
            let line = self.lines.branch(branch);
            self.plain(branch, f64::MAX) + line.end + line.half_bar
        };
        (length(left) - length(other(left))) / 2.0
    }

    /// Where the bumped zone ends, from the middle of the toe.
    pub fn zone_end(&self) -> f64 {
        self.zone + self.bump / 2.0
    }

    /// The bumped zone takes in what it does over its own length.
    pub fn bumped(&self, piece: &PieceSpecification) -> Option<Length> {
        let after = from_mm(2.0 * self.zone)?;
        let before = from_mm(2.0 * self.zone + self.bump)?;
        let thicker = bumped_thickness(piece.stock.thickness, before, after);
        thicker.filter(|_| self.bump > 0.0)
    }
}

/// The other branch.
pub(super) fn other(branch: Branch) -> Branch {
    match branch {
        Branch::Outer => Branch::Inner,
        Branch::Inner => Branch::Outer,
    }
}
