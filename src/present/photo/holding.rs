use super::moved::{Moves, ends_of};
use crate::gauge::{Dot, HoleMark, Shown};

/// What over a photo can be held and moved.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Mark {
    /// An end of a measure.
    End {
        /// The place of its row.
        row: usize,
        /// The first one or the second: 0 or 1.
        end: usize,
    },
    /// A nail hole, by its place among [`Moves::holes`].
    Hole(usize),
}

impl Mark {
    /// What it looks like: `end` or `hole`.
    pub fn kind(self) -> &'static str {
        match self {
            Self::End { .. } => "end",
            Self::Hole(_) => "hole",
        }
    }

    /// Its nail hole, where it is one.
    pub fn hole(self) -> Option<usize> {
        match self {
            Self::End { .. } => None,
            Self::Hole(place) => Some(place),
        }
    }
}

/// A mark as it stands over a photo.
#[derive(Debug, Clone, PartialEq)]
pub struct Hold {
    /// Which one.
    pub mark: Mark,
    /// Where, in pixels.
    pub at: Dot,
    /// What it is called.
    pub name: String,
}

/// All that can be held: the ends of the measure that is pointed at, then the nail holes on the
/// left from the toe, those on the right, and those off the steel.
///
/// *Shape:* `found` is the shoe as the gauge found it, `shown` the same with what was moved.
pub fn holds(found: &Shown, shown: &Shown, moves: &Moves, pointed: Option<usize>) -> Vec<Hold> {
    let ends = pointed.map_or_else(Vec::new, |row| ends(shown, row));
    let mut holes: Vec<(usize, Hold)> = moves
        .holes(found)
        .iter()
        .enumerate()
        .map(|(place, hole)| hold_of(shown, place, hole))
        .collect();
    holes.sort_by_key(|(order, _)| *order);
    let holes = holes.into_iter().map(|(_, hold)| hold);
    ends.into_iter().chain(holes).collect()
}

fn ends(shown: &Shown, row: usize) -> Vec<Hold> {
    let Some((feature, ends)) = ends_of(shown, row) else {
        return Vec::new();
    };
    let named = ["First", "Second"].into_iter().zip(ends).enumerate();
    let holds = named.map(|(end, (which, at))| Hold {
        mark: Mark::End { row, end },
        at,
        name: format!("{which} end of the {}", feature.word()),
    });
    holds.collect()
}

/// A nail hole with its place among all that are on the steel; those off it come last.
fn hold_of(shown: &Shown, place: usize, hole: &HoleMark) -> (usize, Hold) {
    /// Marks on the steel are rounded to a hundredth of a pixel.
    const SAME: f64 = 0.02;
    let is_it = |at: Dot| (at.0 - hole.at.0).abs() < SAME && (at.1 - hole.at.1).abs() < SAME;
    let order = shown.holes.iter().position(|one| is_it(one.at));
    let name = match order.and_then(|order| shown.holes.get(order)) {
        Some(one) => format!("Nail hole, {} {} from the toe", one.side, one.number),
        None => "Nail hole off the steel".to_owned(),
    };
    let hold = Hold {
        mark: Mark::Hole(place),
        at: hole.at,
        name,
    };
    (order.unwrap_or(usize::MAX), hold)
}

/// The mark that is held: the wanted one, or the first where that is gone.
pub fn held(holds: &[Hold], wanted: Option<Mark>) -> Option<&Hold> {
    let own = holds.iter().find(|hold| Some(hold.mark) == wanted);
    own.or_else(|| holds.first())
}

/// The mark after that one, or before it; round from either end to the other.
pub fn beside(holds: &[Hold], mark: Mark, is_after: bool) -> Option<Mark> {
    let place = holds.iter().position(|hold| hold.mark == mark)?;
    let beside = if is_after {
        holds.get(place + 1).or_else(|| holds.first())
    } else {
        let before = place.checked_sub(1).and_then(|place| holds.get(place));
        before.or_else(|| holds.last())
    };
    beside.map(|hold| hold.mark)
}

/// The mark nearest to a place of the photo.
pub fn nearest(holds: &[Hold], (x, y): Dot) -> Option<Mark> {
    let far = |hold: &&Hold| (hold.at.0 - x).hypot(hold.at.1 - y);
    let by = |one: &&Hold, other: &&Hold| far(one).total_cmp(&far(other));
    holds.iter().min_by(by).map(|hold| hold.mark)
}

/// What is held once a nail hole is taken off: the next hole, or the one before the last.
pub fn after_removal(holds: &[Hold], hole: usize) -> Option<Mark> {
    let holes: Vec<usize> = holds.iter().filter_map(|hold| hold.mark.hole()).collect();
    let place = holes.iter().position(|one| *one == hole)?;
    let before = || place.checked_sub(1).and_then(|place| holes.get(place));
    let next = holes.get(place + 1).or_else(before)?;
    // Those that were added later move up.
    Some(Mark::Hole(if *next > hole { *next - 1 } else { *next }))
}
