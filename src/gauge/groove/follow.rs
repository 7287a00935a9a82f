use super::band::Band;
use super::clues::clues;
use super::rows::Row;
use super::walk::Station;
use super::weights::score;

/// How far inside the outer edge a groove begins is told in such steps, in mm.
const STEP: f64 = 0.2;
/// It may begin this far nearer to the edge, as where the toe is bevelled, and this far
/// further in, in mm.
const NEARER: f64 = 5.6;
const FURTHER: f64 = 1.6;
/// What it costs that it shifts by one step from station to station, and that it begins or
/// ends.
const SHIFT: f64 = 0.3;
const END: f64 = 16.0;
/// One station says no more than this; neighbours see much the same, so each counts for half.
const MOST: f64 = 5.0;
const COUNTS: f64 = 0.5;
/// Beyond this share of a branch there is no groove.
const LAST: f64 = 0.97;

/// Follows grooves from heel to heel: of each station how far inside the outer edge one begins, in
/// mm, if there is one.
///
/// *Shape:* `bands` has of each station the band of its side. *Source:* A. Viterbi, Error bounds
/// for convolutional codes, 1967 (from memory).
pub fn follow(rows: &[Row], stations: &[Station], bands: &[Band]) -> Vec<Option<f64>> {
    let least = bands
        .iter()
        .map(|band| band.inset)
        .fold(f64::INFINITY, f64::min);
    let most = bands.iter().map(|band| band.inset).fold(0.0, f64::max);
    let mut insets = Vec::new();
    let mut inset = least - NEARER;
    while inset < most + FURTHER {
        insets.push(inset);
        inset += STEP;
    }
    let told: Vec<Vec<f64>> = rows
        .iter()
        .zip(stations)
        .zip(bands)
        .map(|((row, station), band)| {
            let each = insets.iter().map(|inset| {
                if station.share > LAST {
                    return -MOST * COUNTS;
                }
                let clues = clues(row, *inset, inset + band.width);
                score(&clues).clamp(-MOST, MOST) * COUNTS
            });
            each.collect()
        })
        .collect();
    let path = path(&told, insets.len());
    path.iter()
        .map(|state| insets.get(*state).copied())
        .collect()
}

/// The best way from no groove to no groove, by state; the last state is no groove.
fn path(told: &[Vec<f64>], none: usize) -> Vec<usize> {
    let mut best = vec![f64::NEG_INFINITY; none];
    let mut off = 0.0;
    let mut from: Vec<(Vec<usize>, usize)> = Vec::new();
    for row in told.iter().skip(1) {
        let worth = |state: Option<usize>| {
            let worth = state.and_then(|state| best.get(state));
            worth.copied().unwrap_or(f64::NEG_INFINITY)
        };
        let (next, came): (Vec<f64>, Vec<usize>) = row
            .iter()
            .enumerate()
            .map(|(state, told)| {
                let ways = [
                    (worth(Some(state)), state),
                    (worth(state.checked_sub(1)) - SHIFT, state.saturating_sub(1)),
                    (worth(Some(state + 1)) - SHIFT, state + 1),
                    (off - END, none),
                ];
                let way = ways
                    .into_iter()
                    .max_by(|one, other| one.0.total_cmp(&other.0));
                way.map_or((f64::NEG_INFINITY, none), |(worth, state)| {
                    (worth + told, state)
                })
            })
            .unzip();
        let ends = best.iter().enumerate();
        let ends = ends.max_by(|one, other| one.1.total_cmp(other.1));
        let (end, worth) = ends.map_or((none, f64::NEG_INFINITY), |(state, worth)| {
            (state, *worth - END)
        });
        from.push((came, if worth > off { end } else { none }));
        off = off.max(worth);
        best = next;
    }
    let mut at = none;
    let mut path = vec![at];
    for (came, off) in from.iter().rev() {
        at = came.get(at).copied().unwrap_or(*off);
        path.push(at);
    }
    path.reverse();
    path
}
