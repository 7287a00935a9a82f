use super::strip::{ASIDE, Strip};

/// How many values are looked at of a place: 13 by 9 of the floor, 11 by 7 of the paper, and
/// four more.
pub const COUNT: usize = 198;
/// They lie so many steps apart, 0.75 mm, and so many to each side: along and across.
const APART: usize = 3;
const FLOOR: (usize, usize) = (6, 4);
const PAPER: (usize, usize) = (5, 3);
/// A difference of the logarithm of light that is half of what counts as full.
const HALF: f32 = 0.5;
/// What the other values are scaled by, so that they are about as large.
const SLANT: f32 = 3.0;
const LEVEL: f32 = 0.3;
const OFF: f32 = 0.05;

/// What is to be seen if a hole had its centre at this place, and so many steps from the side
/// where rows begin.
pub fn patch(strip: &Strip, place: usize, across: usize) -> Vec<f32> {
    let mut values = Vec::with_capacity(COUNT);
    around(&strip.floor, place, across, FLOOR, &mut values);
    let level = values.iter().sum::<f32>() / values.len().max(1) as f32;
    around(&strip.paper, place, across, PAPER, &mut values);
    for value in &mut values {
        let off = *value - level;
        *value = off / (off.abs() + HALF);
    }
    let slant = strip.slant.get(place).copied().unwrap_or_default();
    values.extend(slant.map(|slant| SLANT * slant));
    values.push(LEVEL * (level - strip.bright));
    values.push(OFF * (across as f32 - ASIDE as f32));
    values
}

/// The values about a place, as many to each side; beyond an end that of the end.
fn around(
    rows: &[Vec<f32>],
    place: usize,
    across: usize,
    (along, aside): (usize, usize),
    into: &mut Vec<f32>,
) {
    let from = |middle: usize, side: usize, step: usize| {
        (middle + APART * step).saturating_sub(APART * side)
    };
    for step in 0..=2 * along {
        let at = from(place, along, step).min(rows.len().saturating_sub(1));
        let Some(row) = rows.get(at) else {
            continue;
        };
        for step in 0..=2 * aside {
            let at = from(across, aside, step).min(row.len().saturating_sub(1));
            into.extend(row.get(at));
        }
    }
}
