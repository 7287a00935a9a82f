//! How well totals agree.

use super::blind::{By, Gathered, pairs};
use super::pairs::{PairLimits, pair_limits};
use super::{DRAWS, LEAST, LEVEL};
use crate::figures::agreement::{Model, Ratings, Score, bootstrap, components, icc};
use crate::figures::{Interval, Lacking, at_least};
use crate::quantity::Exact;

/// The intraclass correlation of totals: absolute agreement of single examiners.
#[derive(Debug, Clone, PartialEq)]
pub struct TotalsIcc {
    /// At most 1.
    pub value: f64,
    /// Its interval.
    pub interval: Result<Interval, Lacking>,
    /// Whether some examiner did not mark some piece: then it comes of fitted components
    /// of variance, and the interval of drawing pieces anew.
    pub has_gaps: bool,
}

/// Totals of pieces that several examiners marked as a whole, in per cent.
#[derive(Debug, Clone, PartialEq)]
pub struct TotalsFigures {
    /// How many pieces two examiners or more marked as a whole.
    pub pieces: usize,
    /// The mean over pieces of how far two examiners lie apart, in per cent of the marks.
    pub apart: Option<Exact>,
    /// In how many of them all awards are the same, each marking by itself.
    pub same_award: usize,
    /// The intraclass correlation.
    pub icc: Result<TotalsIcc, Lacking>,
    /// Pairs of examiners with enough pieces in common, in per cent of the marks.
    pub pairs: Vec<PairLimits>,
}

pub(super) fn totals(gathered: &Gathered<'_>) -> TotalsFigures {
    let percent = |by: &By<'_>| Some(by.percent()?.to_f64());
    let apart = gathered
        .twice
        .iter()
        .filter_map(|seen| seen.mean_apart(|by| by.percent()));
    let apart: Vec<Exact> = apart.collect();
    let rows = gathered.filled_rows(percent);
    let same_award = gathered.twice.iter().filter(|seen| {
        let whole = seen.by.iter().filter(|by| by.share().is_some());
        let awards: Vec<_> = whole.map(|by| by.outcome.award).collect();
        awards.len() > 1 && pairs(&awards).all(|(one, other)| one == other)
    });
    TotalsFigures {
        pieces: rows.len(),
        apart: Exact::mean(&apart),
        same_award: same_award.count(),
        icc: totals_icc(&rows),
        pairs: pair_limits(gathered, percent),
    }
}

fn totals_icc(rows: &[Vec<Option<f64>>]) -> Result<TotalsIcc, Lacking> {
    enough(rows.len())?;
    let ratings = Ratings::new(rows)?;
    if ratings.missing() == 0 {
        let found = icc(&ratings, Model::Agreement, Score::Single, LEVEL)?;
        return Ok(TotalsIcc {
            value: found.value,
            interval: found.interval,
            has_gaps: false,
        });
    }
    let figure = |ratings: &Ratings| components(ratings)?.agreement(1.0);
    Ok(TotalsIcc {
        value: figure(&ratings)?,
        interval: bootstrap(&ratings, &DRAWS, figure).map(|spread| spread.interval),
        has_gaps: true,
    })
}

/// Whether there are enough pieces to claim anything.
pub(super) fn enough(pieces: usize) -> Result<(), Lacking> {
    at_least(pieces, LEAST, "pieces marked by two examiners")
}
