use crate::figures::Lacking;
use crate::figures::trend::{Next, next_piece};
use crate::quantity::{Dimension, Marks};
use crate::records::SittingKind;
use crate::rubric::Kind;

use super::made::{Made, Series};

/// The level of the interval in which the next piece comes.
pub const LEVEL: f64 = 0.95;

/// What the next piece may come to that is made for the same and as those before it.
#[derive(Debug, Clone, PartialEq)]
pub struct NextPiece {
    /// What it would be made for.
    pub sitting: SittingKind,
    /// Whether its time would be taken.
    pub is_timed: bool,
    /// How many pieces were made so.
    pub pieces: usize,
    /// Most marks of such a piece.
    pub out_of: Marks,
    /// Marks that pass it, before minimums of sections and stops.
    pub pass_mark: Marks,
    /// What is to be expected, as shares of the marks; or why nothing is.
    pub figure: Result<Next, Lacking>,
}

/// The next piece of a series, for each purpose that one was made for, timed and untimed
/// apart; the latest first.
///
/// A piece counts when all of it was marked by somebody else than its maker, and by the
/// version of the rubric that the latest was marked by: another version may ask for
/// something else.
pub fn next_pieces(series: &Series<'_>) -> Vec<NextPiece> {
    let counts = |made: &&&Made<'_>| made.is_whole() && !made.is_own();
    let pieces: Vec<&Made<'_>> = series.pieces.iter().filter(counts).copied().collect();
    let Some(version) = pieces.last().map(|made| &made.rubric.version) else {
        return Vec::new();
    };
    let mut groups: Vec<((SittingKind, bool), Vec<&Made<'_>>)> = Vec::new();
    let same = pieces
        .iter()
        .rev()
        .filter(|made| made.rubric.version == *version);
    for made in same {
        let key = (made.sitting, is_timed(made));
        match groups.iter_mut().find(|(known, _)| *known == key) {
            Some((_, group)) => group.push(made),
            None => groups.push((key, vec![made])),
        }
    }
    groups
        .into_iter()
        .filter_map(|group| next(group.0, &group.1))
        .collect()
}

/// Whether the time of a piece was written.
fn is_timed(made: &Made<'_>) -> bool {
    let entries = made.rubric.entries();
    let takes_time =
        |kind: &Kind| matches!(kind, Kind::Tally(tally) if tally.dimension == Dimension::Duration);
    let mut times = entries
        .iter()
        .filter(|entry| takes_time(&entry.criterion.kind));
    times.any(|entry| made.facts.tallies.contains_key(&entry.id))
}

/// `pieces` latest first; `None` where no marks can be had. Marks leave the exact numbers only
/// here, for a figure that is no mark.
fn next((sitting, is_timed): (SittingKind, bool), pieces: &[&Made<'_>]) -> Option<NextPiece> {
    let latest = &pieces.first()?.outcome;
    let out_of = latest.out_of.0;
    let pass = latest.pass_mark.0.over(out_of)?.to_f64();
    // What did not apply to one piece makes it of fewer marks: shares can be compared.
    let marks = pieces.iter().rev().map(|made| {
        let share = made.outcome.marks.0.over(made.outcome.out_of.0)?;
        Some(share.times(out_of)?.to_f64())
    });
    let marks: Vec<f64> = marks.collect::<Option<_>>()?;
    Some(NextPiece {
        sitting,
        is_timed,
        pieces: pieces.len(),
        out_of: latest.out_of,
        pass_mark: latest.pass_mark,
        figure: next_piece(&marks, out_of.to_f64(), pass, LEVEL),
    })
}
