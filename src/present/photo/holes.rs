use crate::gauge::{Shown, ShownHole};
use crate::quantity::print_figure;
use crate::sheet::capital;

/// A nail hole in a photo, in words.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct HoleRow {
    /// Which it is: `Left, 1`.
    pub name: String,
    /// Along the outer edge from the toe.
    pub along: String,
    /// From its middle to the outer edge.
    pub to_edge: String,
    /// From its middle to that of the next one; empty for the last.
    pub to_next: String,
    /// How sure its place is, about 95 %.
    pub sure: String,
}

/// The nail holes that were found, from the toe back, left and then right.
pub fn hole_rows(shown: &Shown) -> Vec<HoleRow> {
    shown.holes.iter().map(row).collect()
}

fn row(hole: &ShownHole) -> HoleRow {
    let mm = |value: f64| format!("{} mm", print_figure(value, 1));
    HoleRow {
        name: format!("{}, {}", capital(&hole.side), hole.number),
        along: mm(hole.along),
        to_edge: hole.to_edge.map_or("not plain".to_owned(), mm),
        to_next: hole.to_next.map(mm).unwrap_or_default(),
        sure: format!(
            "± {}{}",
            mm(2.0 * hole.unsure),
            if hole.by_hand { ", by hand" } else { "" }
        ),
    }
}
