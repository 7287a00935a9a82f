use crate::figures::Lacking;
use crate::figures::trend::{LEAST_PIECES, Next, next_piece};
use crate::quantity::{Exact, Marks};
use crate::records::SittingKind;

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
    let same = pieces.iter().rev().copied();
    let same = same.filter(|made| made.rubric.version == *version);
    made_alike(same, |made| (made.sitting, made.is_timed()))
        .into_iter()
        .filter_map(|group| next(group.0, &group.1))
        .collect()
}

/// What a piece was made for, and whether its time was taken.
pub type Kind = (SittingKind, bool);

/// Pieces that were made alike, by their kind, in the order in which kinds come first.
pub fn made_alike<T>(
    pieces: impl Iterator<Item = T>,
    kind: impl Fn(&T) -> Kind,
) -> Vec<(Kind, Vec<T>)> {
    let mut groups: Vec<(Kind, Vec<T>)> = Vec::new();
    for piece in pieces {
        let own = kind(&piece);
        match groups.iter_mut().find(|(known, _)| *known == own) {
            Some((_, group)) => group.push(piece),
            None => groups.push((own, vec![piece])),
        }
    }
    groups
}

/// The pieces made last of which there are [`LEAST_PIECES`] alike by the version of the
/// latest, oldest first, with what they are; `None` where there are too few.
///
/// *Shape:* `whole` oldest first, those alone that were marked as a whole by an examiner.
pub fn last_alike<'a, T>(
    whole: &[&'a T],
    version: impl Fn(&'a T) -> &'a str,
    kind: impl Fn(&T) -> Kind,
) -> Option<(Kind, Vec<&'a T>)> {
    let latest = version(whole.last().copied()?);
    let latest_first = whole.iter().rev().copied();
    let same = latest_first.filter(|piece| version(piece) == latest);
    let mut groups = made_alike(same, |piece| kind(piece)).into_iter();
    let (kind, mut group) = groups.find(|(_, group)| group.len() >= LEAST_PIECES)?;
    group.reverse();
    Some((kind, group))
}

/// `pieces` latest first; `None` where no marks can be had.
fn next((sitting, is_timed): Kind, pieces: &[&Made<'_>]) -> Option<NextPiece> {
    let latest = &pieces.first()?.outcome;
    let outcomes = pieces.iter().rev().map(|made| &made.outcome);
    let shares = outcomes.map(|outcome| outcome.marks.0.over(outcome.out_of.0));
    let shares: Vec<Exact> = shares.collect::<Option<_>>()?;
    Some(NextPiece {
        sitting,
        is_timed,
        pieces: pieces.len(),
        out_of: latest.out_of,
        pass_mark: latest.pass_mark,
        figure: after_these(&shares, latest.out_of, latest.pass_mark)?,
    })
}

/// What comes after pieces that were given these shares of what they could have, the oldest
/// first: a piece of `out_of` marks that `pass_mark` of them pass. `None` where no marks can
/// be had. What did not apply to one piece makes it of fewer marks: shares can be compared.
///
/// Marks leave the exact numbers only here, for a figure that is no mark.
pub fn after_these(
    shares: &[Exact],
    out_of: Marks,
    pass_mark: Marks,
) -> Option<Result<Next, Lacking>> {
    let pass = pass_mark.0.over(out_of.0)?.to_f64();
    let marks = shares.iter().map(|share| share.times(out_of.0));
    let marks = marks.map(|marks| marks.map(Exact::to_f64));
    let marks: Vec<f64> = marks.collect::<Option<_>>()?;
    Some(next_piece(&marks, out_of.0.to_f64(), pass, LEVEL))
}
