use super::clues::clues;
use super::rows::Row;
use super::weights::score;

/// Where a groove lies across the steel.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Band {
    /// From the outer edge to the groove, in mm.
    pub inset: f64,
    /// Its width, in mm.
    pub width: f64,
    /// The mean score of its places.
    pub told: f64,
}

/// What is tried: first and last in mm, both of inset and width.
const INSETS: (f64, f64) = (2.4, 10.8);
const WIDTHS: (f64, f64) = (4.4, 10.0);
/// First in such steps, then about the best in finer ones, in mm.
const FIRST: f64 = 0.4;
const THEN: [f64; 2] = [0.2, 0.1];
/// Beyond this one place says no more.
const MOST: f64 = 6.0;

/// The band that suits the rows best.
pub fn band(rows: &[&Row]) -> Band {
    let weighed = |inset: f64, width: f64| {
        let scores = rows.iter().map(|row| {
            let clues = clues(row, inset, inset + width);
            score(&clues).clamp(-MOST, MOST)
        });
        Band {
            inset,
            width,
            told: scores.sum::<f64>() / rows.len().max(1) as f64,
        }
    };
    let best = |insets: &[f64], widths: &[f64]| {
        let pairs = insets
            .iter()
            .flat_map(|inset| widths.iter().map(|width| (*inset, *width)));
        let bands = pairs.map(|(inset, width)| weighed(inset, width));
        let found = bands.max_by(|one, other| one.told.total_cmp(&other.told));
        found.unwrap_or(Band {
            inset: INSETS.0,
            width: WIDTHS.0,
            told: -MOST,
        })
    };
    let mut found = best(&spread(INSETS, FIRST), &spread(WIDTHS, FIRST));
    for step in THEN {
        let about = |value: f64| spread((value - 2.0 * step, value + 2.0 * step), step);
        found = best(&about(found.inset), &about(found.width));
    }
    found
}

/// Values from first to last.
fn spread((first, last): (f64, f64), step: f64) -> Vec<f64> {
    let mut value = first;
    std::iter::from_fn(|| {
        let this = value;
        value += step;
        (this < last + step / 2.0).then_some(this)
    })
    .collect()
}
