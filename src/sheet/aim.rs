//! What a piece has to reach for all marks of a criterion, without the marks.

use crate::marking::CriterionResult;
use crate::quantity::Unit;
use crate::rubric::{Entry, Judged, Kind, Rubric, Scale};

use super::tolerance::{Asked, allowance_words, spread_word, with_asked};
use super::words::join;

/// What gives all marks of an entry, for a reader in `sheet` units; empty where the rubric
/// says nothing of it.
pub(super) fn aim_words(
    rubric: &Rubric,
    entry: &Entry<'_>,
    result: &CriterionResult,
    sheet: Unit,
) -> String {
    with_asked(rubric, entry, sheet, |asked| aim(asked, result))
}

fn aim(asked: &Asked<'_>, result: &CriterionResult) -> String {
    match &asked.entry.criterion.kind {
        Kind::Toleranced(kind) => scale(asked, &kind.scale, result, ""),
        Kind::Paired(kind) => scale(asked, &kind.scale, result, "difference"),
        Kind::Spread(kind) => scale(asked, &kind.scale, result, spread_word(kind.measure)),
        Kind::Tally(kind) => allowance_words(kind),
        Kind::Judged(judged) => best_level(judged),
        Kind::Faults(_) => "no faults".to_owned(),
    }
}

/// The target and the band with most marks.
fn scale(asked: &Asked<'_>, scale: &Scale, result: &CriterionResult, what: &str) -> String {
    let most = scale.bands.iter().map(|band| band.marks).max();
    let best = scale.bands.iter().position(|band| Some(band.marks) == most);
    let limits = best.map_or_else(String::new, |at| asked.band(scale, at, result));
    join([what.to_owned(), asked.head(scale, result), limits], " ")
}

fn best_level(judged: &Judged) -> String {
    match judged {
        Judged::Levels(levels) => {
            let most = levels.iter().map(|level| level.marks).max();
            let best = levels.iter().find(|level| Some(level.marks) == most);
            best.map_or_else(String::new, |best| {
                join([best.name.as_str(), best.text.as_str()], ": ")
            })
        }
        Judged::Numbers { descriptors, .. } => {
            let best = descriptors.iter().max_by_key(|(at, _)| *at);
            best.map_or_else(String::new, |(_, text)| text.clone())
        }
    }
}
