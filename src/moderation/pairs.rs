//! Two examiners side by side: limits of agreement after Bland and Altman.

use super::LEAST;
use super::blind::{By, Gathered, pairs};
use crate::figures::agreement::{Limits, LimitsAsked, bland_altman};
use crate::records::{ExaminerId, PieceId};

/// One piece of two examiners.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PairPoint {
    /// Which piece.
    pub piece: PieceId,
    /// The mean of what both gave.
    pub mean: f64,
    /// What the first gave less what the second gave.
    pub difference: f64,
}

/// How far one examiner lies from another on the pieces that both marked.
#[derive(Debug, Clone, PartialEq)]
pub struct PairLimits {
    /// The one.
    pub first: ExaminerId,
    /// The other, whose values are taken off.
    pub second: ExaminerId,
    /// Their pieces, oldest first.
    pub points: Vec<PairPoint>,
    /// Mean difference and limits, in the unit of the values.
    pub limits: Limits,
}

/// Every pair of examiners with enough pieces that both gave a value, those with most
/// pieces first.
pub(super) fn pair_limits(
    gathered: &Gathered<'_>,
    give: impl Fn(&By<'_>) -> Option<f64>,
) -> Vec<PairLimits> {
    let of = |(first, second): (&ExaminerId, &ExaminerId)| {
        let both = gathered.twice.iter().filter_map(|seen| {
            let one = give(seen.by(*first)?)?;
            let other = give(seen.by(*second)?)?;
            Some((seen.piece.id, one, other))
        });
        let both: Vec<(PieceId, f64, f64)> = both.collect();
        if both.len() < LEAST {
            return None;
        }
        let (ones, others): (Vec<f64>, Vec<f64>) =
            both.iter().map(|(_, one, other)| (*one, *other)).unzip();
        // Numbers of marks and sizes are finite, so with so many pairs there are limits.
        let limits = bland_altman(&ones, &others, LimitsAsked::default()).ok()?;
        let points = both.iter().map(|(piece, one, other)| PairPoint {
            piece: *piece,
            mean: f64::midpoint(*one, *other),
            difference: one - other,
        });
        Some(PairLimits {
            first: *first,
            second: *second,
            points: points.collect(),
            limits,
        })
    };
    let mut found: Vec<PairLimits> = pairs(&gathered.examiners).filter_map(of).collect();
    found.sort_by_key(|pair| std::cmp::Reverse(pair.points.len()));
    found
}
