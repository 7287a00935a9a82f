//! Whether two examiners who judge one thing by eye give the same level.

use super::blind::{By, Gathered};
use super::totals::enough;
use super::{DRAWS, LEVEL};
use crate::figures::agreement::{
    Kappa, Metric, Ratings, Weights, alpha, alpha_bootstrap, cohen_kappa,
};
use crate::figures::{Interval, Lacking};
use crate::rubric::{Entry, Judged};

/// How kappa counts levels that lie apart: near ones count as partly agreed.
pub const KAPPA_WEIGHTS: Weights<'static> = Weights::Linear;

/// What the levels of one criterion come to.
#[derive(Debug, Clone, PartialEq)]
pub struct JudgedFigures {
    /// How many pieces two examiners gave a level.
    pub pieces: usize,
    /// Krippendorff's alpha, levels in their order.
    pub alpha: Result<f64, Lacking>,
    /// Its interval, by drawing pieces anew.
    pub interval: Result<Interval, Lacking>,
    /// Cohen's weighted kappa, where just two examiners judged.
    pub kappa: Option<Kappa>,
}

/// Place of the level that was given, better ones higher; `None` where the criterion was
/// not judged as usual.
pub(super) fn place(judged: &Judged, entry: &Entry<'_>, by: &By<'_>) -> Option<usize> {
    let facts = &by.marking.facts;
    if facts.states.contains_key(&entry.id) {
        return None;
    }
    let (at, count) = judged.place_of(facts.levels.get(&entry.id)?.trim())?;
    Some(match judged {
        // The best comes first.
        Judged::Levels(_) => count - 1 - at,
        Judged::Numbers { .. } => at,
    })
}

/// How many levels there are.
pub(super) fn count(judged: &Judged) -> usize {
    match judged {
        Judged::Levels(levels) => levels.len(),
        Judged::Numbers { allowed, .. } => allowed.len(),
    }
}

/// A place as a score.
pub(super) fn score(place: usize) -> Option<f64> {
    u32::try_from(place).ok().map(f64::from)
}

pub(super) fn judged(gathered: &Gathered<'_>, entry: &Entry<'_>, judged: &Judged) -> JudgedFigures {
    let rows = gathered.filled_rows(|by| score(place(judged, entry, by)?));
    let (alpha, interval) = alpha_of(&rows);
    JudgedFigures {
        pieces: rows.len(),
        alpha,
        interval,
        kappa: kappa(&rows, count(judged)),
    }
}

/// Alpha with its interval.
pub(super) fn alpha_of(
    rows: &[Vec<Option<f64>>],
) -> (Result<f64, Lacking>, Result<Interval, Lacking>) {
    let ratings = enough(rows.len()).and_then(|()| Ratings::new(rows));
    let ratings = match ratings {
        Ok(ratings) => ratings,
        Err(lacking) => return (Err(lacking.clone()), Err(lacking)),
    };
    let spread = alpha_bootstrap(&ratings, Metric::Ordinal, &DRAWS);
    (
        alpha(&ratings, Metric::Ordinal),
        spread.map(|spread| spread.interval),
    )
}

/// Kappa, where two columns alone are filled.
fn kappa(rows: &[Vec<Option<f64>>], levels: usize) -> Option<Kappa> {
    enough(rows.len()).ok()?;
    let width = rows.first().map_or(0, Vec::len);
    let is_used = |at: &usize| {
        rows.iter()
            .any(|row| row.get(*at).copied().flatten().is_some())
    };
    let used: Vec<usize> = (0..width).filter(is_used).collect();
    let [one, other] = used.as_slice() else {
        return None;
    };
    let column = |at: usize| -> Option<Vec<f64>> {
        let cells = rows.iter().map(|row| row.get(at).copied().flatten());
        cells.collect()
    };
    let scale: Vec<f64> = (0..levels).filter_map(score).collect();
    cohen_kappa(
        &column(*one)?,
        &column(*other)?,
        &scale,
        KAPPA_WEIGHTS,
        LEVEL,
    )
    .ok()
}
