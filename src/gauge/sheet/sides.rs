use nalgebra::{SMatrix, SVector};

use super::edges::Edge;
use super::fit::{NUDGES, Seen, UNKNOWNS, moved, residuals, weight};
use super::size::Sheet;

/// The same camera, less sure by how far the sides of a card may lie off as a whole: noise of
/// edges alone does not tell that.
///
/// Each side is moved by its uncertainty, and the camera with it, as least squares have it
/// (JCGM 100:2008, 5.1.3 note 2).
pub fn with_sides_off(seen: &Seen, sheet: Sheet, edges: &[Edge]) -> Seen {
    if sheet.about().side_off == 0.0 {
        return seen.clone();
    }
    let moved = (0..4).filter_map(|side| moved_by(seen, sheet, edges, side));
    let moved = moved.map(|off| off * off.transpose());
    Seen {
        covariance: seen.covariance + moved.sum::<SMatrix<f64, UNKNOWNS, UNKNOWNS>>(),
        ..seen.clone()
    }
}

/// By how much the camera is off if that side is. What weighs nothing stays so: a side that is off
/// is no stray.
fn moved_by(
    seen: &Seen,
    sheet: Sheet,
    edges: &[Edge],
    side: usize,
) -> Option<SVector<f64, UNKNOWNS>> {
    let camera = &seen.camera;
    let off = residuals(camera, sheet, edges)?;
    let pixels = sheet.about().side_off * camera.focal / camera.translation.norm();
    let mut slope = SVector::<f64, UNKNOWNS>::zeros();
    for (unknown, nudge) in NUDGES.iter().enumerate() {
        let mut by = SVector::<f64, UNKNOWNS>::zeros();
        *by.get_mut(unknown)? = *nudge;
        let nudged = residuals(&moved(camera, &by), sheet, edges)?;
        let each = edges.iter().zip(off.iter().zip(nudged));
        let here = each.filter(|(edge, _)| edge.side == side);
        let here =
            here.map(|(_, (off, nudged))| weight(*off, seen.spread) * (nudged - off) / nudge);
        *slope.get_mut(unknown)? = here.sum::<f64>() * pixels;
    }
    Some(seen.covariance * slope)
}
