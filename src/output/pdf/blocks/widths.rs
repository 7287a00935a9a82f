use num_traits::ToPrimitive;

use crate::output::pdf::words::Measured;

/// What a column of a table needs, in points.
#[derive(Debug, Clone, Default, PartialEq)]
pub(super) struct Need {
    /// The least: its widest word.
    pub(super) least: f32,
    /// The most: its widest cell in one line.
    pub(super) most: f32,
    /// The cells row by row.
    pub(super) cells: Vec<Text>,
}

/// What a cell holds.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Text {
    /// What of the width is not for text.
    pub(super) around: f32,
    /// The text.
    pub(super) text: Measured,
    /// How many lines what stands under it is high.
    pub(super) under: f32,
}

/// How much wider than it needs a table is set at most.
const STRETCH: f32 = 1.5;
/// How much goes from one column to another at once, in points; whichever step makes the
/// table lowest is taken.
const STEPS: [f32; 4] = [48.0, 24.0, 12.0, 6.0];
/// What filling less of a line counts beside a line less.
const WAY: f32 = 0.4;
/// How often at most.
const OFTEN: usize = 30;

/// How wide each column is so that all of them take `room` points, or less where they need
/// much less. Where all cells fit in one line, what is left over goes to the columns by
/// what they hold; else the columns share what is left over the widest words so that the
/// table is as low as can be; and where not even the words fit, the widest columns give
/// way.
pub(super) fn widths(needs: &[Need], room: f32) -> Vec<f32> {
    let least: f32 = needs.iter().map(|need| need.least).sum();
    let most: f32 = needs.iter().map(|need| need.most).sum();
    if most <= room {
        let share = if most > 0.0 { room / most } else { 0.0 };
        return needs
            .iter()
            .map(|need| need.most * share.min(STRETCH))
            .collect();
    }
    if least <= room {
        let share = (room - least) / (most - least).max(f32::EPSILON);
        let widths = needs
            .iter()
            .map(|need| need.least + (need.most - need.least) * share);
        return lowest(needs, widths.collect());
    }
    let limit = limit(needs, room);
    needs.iter().map(|need| need.least.min(limit)).collect()
}

/// A column while its width is sought.
#[derive(Clone)]
struct Tried<'a> {
    need: &'a Need,
    width: f32,
    /// How high each of its cells is: by its lines, and by how much of them it fills.
    heights: Vec<f32>,
}

impl<'a> Tried<'a> {
    fn new(need: &'a Need, width: f32) -> Self {
        let cells = need.cells.iter();
        let heights = cells.map(|cell| {
            let room = (width - cell.around).max(1.0);
            let lines = cell.text.lines(room).to_f32().unwrap_or(f32::MAX);
            // Half a line less is no gain by itself, and still the way to one.
            lines + cell.under + WAY * (cell.text.line() / room)
        });
        Self {
            need,
            width,
            heights: heights.collect(),
        }
    }
}

/// Gives width from column to column as long as the table gets lower by it.
fn lowest(needs: &[Need], widths: Vec<f32>) -> Vec<f32> {
    let columns = needs.iter().zip(widths);
    let mut columns: Vec<Tried<'_>> = columns
        .map(|(need, width)| Tried::new(need, width))
        .collect();
    let mut low = height(&columns);
    for _ in 0..OFTEN {
        let mut best = None;
        for (from, to) in pairs(columns.len()) {
            for step in STEPS {
                let Some(moved) = moved(&columns, from, to, step) else {
                    continue;
                };
                let high = height(&moved);
                if high < low {
                    low = high;
                    best = Some(moved);
                }
            }
        }
        match best {
            Some(better) => columns = better,
            None => break,
        }
    }
    columns.iter().map(|column| column.width).collect()
}

/// Each column with each other one.
fn pairs(columns: usize) -> impl Iterator<Item = (usize, usize)> {
    (0..columns).flat_map(move |from| {
        let others = (0..columns).filter(move |to| *to != from);
        others.map(move |to| (from, to))
    })
}

/// The columns after a step, unless it would break a word.
fn moved<'a>(columns: &[Tried<'a>], from: usize, to: usize, step: f32) -> Option<Vec<Tried<'a>>> {
    let (given, taken) = (columns.get(from)?, columns.get(to)?);
    if given.width - step < given.need.least {
        return None;
    }
    let given = Tried::new(given.need, given.width - step);
    let taken = Tried::new(taken.need, taken.width + step);
    let mut moved = columns.to_vec();
    *moved.get_mut(from)? = given;
    *moved.get_mut(to)? = taken;
    Some(moved)
}

/// How high the table is: the highest cell of each row counts, and a little every cell.
fn height(columns: &[Tried<'_>]) -> f32 {
    let rows = columns.iter().map(|column| column.heights.len()).max();
    let mut height = 0.0;
    for row in 0..rows.unwrap_or(0) {
        let cells = columns.iter().filter_map(|column| column.heights.get(row));
        let highest = cells.clone().copied().fold(0.0, f32::max);
        height += highest + 0.01 * cells.sum::<f32>();
    }
    height
}

/// The width that no column may go beyond so that all of them fit.
fn limit(needs: &[Need], room: f32) -> f32 {
    let mut least: Vec<f32> = needs.iter().map(|need| need.least).collect();
    least.sort_by(f32::total_cmp);
    let mut left = room;
    let mut columns = least.len().to_f32().unwrap_or(1.0);
    for width in least {
        let share = left / columns;
        if width > share {
            return share;
        }
        left -= width;
        columns -= 1.0;
    }
    room
}
