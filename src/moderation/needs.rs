//! How many examiners and pieces a mark by this rubric needs.

use std::collections::BTreeMap;

use super::LEAST;
use super::blind::{By, Gathered, Seen};
use super::totals::enough;
use crate::figures::general::{Choice, Components, Decision, Design, crossed_with_gaps};
use crate::figures::{Lacking, at_least};
use crate::records::LearnerId;

/// So many examiners are looked at.
pub const MOST_EXAMINERS: usize = 3;
/// So many pieces are looked at.
pub const MOST_PIECES: usize = 6;

/// What a mark that rests on other numbers of examiners and pieces can be relied on for.
#[derive(Debug, Clone, PartialEq)]
pub struct Needs {
    /// The mark of one piece by one examiner or more, one row to each number of them.
    pub one_piece: Result<Vec<OnePiece>, Lacking>,
    /// The mean mark of a learner over pieces.
    pub pieces: Result<SeveralPieces, Lacking>,
}

/// The mark of one piece by so many examiners.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OnePiece {
    /// How many.
    pub examiners: usize,
    /// Its dependability, from 0 to 1: the share of true differences between pieces.
    pub phi: f64,
    /// How far a mark may lie from what all examiners would give on the mean, one standard
    /// deviation, in per cent of the marks.
    pub error: f64,
}

/// The mean mark of learners over several pieces.
#[derive(Debug, Clone, PartialEq)]
pub struct SeveralPieces {
    /// How many learners it rests on.
    pub learners: usize,
    /// Every number of pieces by every number of examiners for each, examiners changing
    /// fastest; how many of either stands in the plan: `t` pieces, `r` examiners.
    pub table: Vec<Decision>,
}

fn percent(by: &By<'_>) -> Option<f64> {
    Some(by.percent()?.to_f64())
}

pub(super) fn needs(gathered: &Gathered<'_>) -> Needs {
    let studied = study(gathered);
    Needs {
        one_piece: studied.clone().and_then(|found| one_piece(&found)),
        pieces: studied.and_then(|found| several(gathered, &found)),
    }
}

/// Pieces by examiners, as Henderson's method 1 takes them apart.
fn study(gathered: &Gathered<'_>) -> Result<Components, Lacking> {
    let rows = gathered.filled_rows(percent);
    enough(rows.len())?;
    crossed_with_gaps(&rows)
}

fn one_piece(found: &Components) -> Result<Vec<OnePiece>, Lacking> {
    let choice = Choice {
        letter: 'i',
        levels: (1..=MOST_EXAMINERS).collect(),
        is_fixed: false,
    };
    let rows = found.decisions('p', &[choice])?.into_iter();
    let rows = rows.map(|row| OnePiece {
        examiners: row.plan.first().map_or(0, |planned| planned.levels),
        phi: row.phi,
        error: row.absolute_error.sqrt(),
    });
    Ok(rows.collect())
}

/// Learners by pieces, each with examiners of its own.
///
/// *Method:* of learners with two whole pieces or more, the pieces in their order are taken
/// apart as learner, place in the order, and the rest. The place is what all learners gain
/// over time and is left out. The rest is what pieces of one learner differ by and what one
/// examiner adds; the latter is known from the pieces that several examiners marked, so it is
/// taken off. A result below nothing counts as nothing.
fn several(gathered: &Gathered<'_>, examiners: &Components) -> Result<SeveralPieces, Lacking> {
    let rows = by_learner(gathered);
    at_least(rows.len(), LEAST, "learners with two whole pieces or more")?;
    let learners = crossed_with_gaps(&rows)?;
    let of = |found: &Components, name: &str| found.named(name).map_or(0.0, |one| one.floored());
    let (severe, taste) = (of(examiners, "i"), of(examiners, "pi"));
    let parts = [
        ("p", of(&learners, "p")),
        ("t", 0.0),
        ("r:t", severe),
        ("pt", (of(&learners, "pi") - severe - taste).max(0.0)),
        ("pr:t", taste),
    ];
    let design = Design::raters_within_tasks(rows.len(), 2, 2)?;
    let known = Components::of(design, |name| {
        let part = parts.iter().find(|(own, _)| *own == name);
        part.map(|(_, estimate)| *estimate)
    })?;
    let choice = |letter, most| Choice {
        letter,
        levels: (1..=most).collect(),
        is_fixed: false,
    };
    Ok(SeveralPieces {
        learners: rows.len(),
        table: known.decisions(
            'p',
            &[choice('t', MOST_PIECES), choice('r', MOST_EXAMINERS)],
        )?,
    })
}

/// The marks of each learner with two whole pieces or more, oldest first, by the examiner
/// who comes first by id; shorter rows are filled up with nothing.
fn by_learner(gathered: &Gathered<'_>) -> Vec<Vec<Option<f64>>> {
    let mut seen: Vec<&Seen<'_>> = gathered.twice.iter().chain(&gathered.once).collect();
    seen.sort_by_key(|seen| (seen.day, seen.piece.id));
    let mut rows: BTreeMap<LearnerId, Vec<Option<f64>>> = BTreeMap::new();
    for one in seen {
        let given = one.by.iter().find_map(percent);
        if let (Some(learner), Some(given)) = (one.piece.learner, given) {
            rows.entry(learner).or_default().push(Some(given));
        }
    }
    let mut rows: Vec<_> = rows.into_values().filter(|row| row.len() > 1).collect();
    let width = rows.iter().map(Vec::len).max().unwrap_or(0);
    for row in &mut rows {
        row.resize(width, None);
    }
    rows
}
