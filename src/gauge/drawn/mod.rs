//! A drawn outline: a pencil or pen line on white paper, photographed or scanned.
//!
//! *What:* [`ink`] tells how dark the ground is against the paper about it, [`regions`] what
//! closed lines go round, [`middle`] where the middle of a line runs. No steel is looked for.
//!
//! *Invariant.* A line that is open, doubled or not plain is refused as [`Unclear`]; none is
//! closed by guessing.

mod ink;
mod middle;
mod regions;
mod unclear;

use kurbo::Point;

pub use self::unclear::Unclear;

use self::ink::Ink;
use self::middle::middle;
use self::regions::regions;
use super::features::{Both, measure};
use super::ground::Ground;
use super::lie::to_toe;
use super::refused::Refused;
use super::sheet::Seen;
use super::shoe::{Ask, Found, Stage, Warning};
use super::spread::{Basis, estimates};
use super::steel::Followed;
use super::view::View;

/// A traced line stands off the edge that it goes round by about half the pencil's lead, which
/// differs with how the pencil is held: so much of it is alike all round, in mm. With what
/// differs from place to place (see [`middle`]) an edge has a standard uncertainty of 0.5 mm; a
/// judgement, no source.
const STANDS_OFF: f64 = 0.4;

/// Measures a drawn outline on the view's plane.
///
/// # Errors
///
/// A line that is none of a shoe, and what to do.
pub fn look(
    view: &View<'_>,
    ground: &Ground,
    ask: &Ask,
    seen: Seen,
    mut begins: impl FnMut(Stage),
) -> Result<Found, Refused> {
    let ink = Ink::of(view, ground);
    let guides = regions(&ink, ground)?;
    let outlines = guides.iter().map(|guide| middle(&ink, guide));
    let outlines = outlines.collect::<Result<Vec<Followed>, Unclear>>()?;
    begins(Stage::Measures);
    let lines: Vec<Vec<Point>> = outlines.iter().map(|line| line.line.clone()).collect();
    let (outer, inner) = lines.split_first().ok_or(Unclear::Missing)?;
    let measures = measure(outer, inner, to_toe(outer, !inner.is_empty()))?;
    begins(Stage::Uncertainty);
    let estimates = estimates(&Basis {
        seen: &seen,
        outlines: &outlines,
        measures: &measures,
        places: &[],
        unclear: &[],
        blank: &|_| false,
        thickness: ask.height(),
        all_off: STANDS_OFF,
    })
    .ok_or(Refused::Unsure)?;
    ask.scale.check(&estimates)?;
    let mut warnings = ask.scale.warnings();
    warnings.push(Warning::Traced);
    Ok(Found {
        unclear: Vec::new(),
        seen,
        outlines,
        measures,
        estimates,
        fuller: Both::default(),
        holes: Vec::new(),
        warnings,
    })
}
