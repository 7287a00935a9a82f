use super::{BODY, Lay, bold};
use crate::output::pdf::face::Face;
use crate::output::pdf::ink::Ink;
use crate::output::pdf::line::{Span, Style, lines};
use crate::output::pdf::rows::{Column, Side};
use crate::output::pdf::strip::{Mark, bar};
use crate::output::pdf::tags::NodeId;
use crate::sheet::{Cell, CellRole};

/// White left and right in a cell.
pub(super) const PAD: f32 = 4.0;
/// From one base line of a table to the next.
pub(super) const ROW_LEADING: f32 = 9.9;
/// Width of a band's sign.
const BAND: f32 = 22.0;
/// Height of a band's sign.
const BAND_HIGH: f32 = 7.8;
/// Between a band's sign and the text.
const AFTER_BAND: f32 = 4.0;

/// Text in a table.
pub(super) const IN_TABLE: Style = Style { size: 8.25, ..BODY };

/// How a cell's text is set.
pub(super) fn style(role: CellRole, is_bold: bool) -> Style {
    match (role, is_bold) {
        (_, true) => bold(IN_TABLE),
        (CellRole::Quiet, false) => Style {
            ink: Ink::QUIET,
            ..IN_TABLE
        },
        (CellRole::Text | CellRole::Number | CellRole::Blank, false) => Style {
            face: Face::Regular,
            ..IN_TABLE
        },
    }
}

/// Where a cell's text stands.
fn side(role: CellRole) -> Side {
    match role {
        CellRole::Number => Side::Right,
        CellRole::Text | CellRole::Quiet | CellRole::Blank => Side::Left,
    }
}

/// How much of a cell its band takes, in points.
pub(super) fn band_width(cell: &Cell) -> f32 {
    cell.band.map_or(0.0, |_| BAND + AFTER_BAND)
}

/// A cell's lines, and its band's sign, in a column that goes from `x` over `width` points.
pub(super) fn cell(
    lay: &mut Lay<'_>,
    cell: &Cell,
    node: NodeId,
    (x, width): (f32, f32),
    is_bold: bool,
) -> (Column, Vec<Mark>) {
    let band = band_width(cell);
    let room = (width - 2.0 * PAD - band).max(1.0);
    let column = Column {
        x: x + PAD + band,
        width: room,
        side: side(cell.role),
        lines: lines(
            lay.faces,
            &[Span::new(&cell.text, style(cell.role, is_bold))],
            room,
        ),
        nodes: vec![node],
    };
    let first = column.lines.first().map_or(0.0, |line| line.width);
    let left = match column.side {
        Side::Left => x + PAD,
        Side::Right => (x + width - PAD - first - band).max(x + PAD),
    };
    let sign = cell.band.map_or_else(Vec::new, |rank| sign(rank, left));
    (column, sign)
}

/// A band's sign: its temper colour and as many notches as its rank, told apart without
/// colour too.
fn sign(rank: u8, x: f32) -> Vec<Mark> {
    let y = (ROW_LEADING - BAND_HIGH) / 2.0;
    let mut marks = vec![
        bar(x, y, BAND, BAND_HIGH, Ink::BLACK),
        bar(
            x + 0.5,
            y + 0.5,
            BAND - 1.0,
            BAND_HIGH - 1.0,
            Ink::of_band(rank),
        ),
    ];
    let count = f32::from(rank.min(4));
    let mut left = x + (BAND - (count * 4.0 - 2.0)) / 2.0;
    for _ in 0..rank.min(4) {
        let notch = bar(left, y + 1.5, 2.0, BAND_HIGH - 3.0, Ink::of_notches(rank));
        marks.push(notch);
        left += 4.0;
    }
    marks
}
