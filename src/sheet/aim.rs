//! What a piece has to reach for all marks of a criterion, without the marks.

use crate::marking::CriterionResult;
use crate::quantity::{Marks, Unit};
use crate::rubric::{Entry, Judged, Kind, OnTheLimit, Rubric, Scale, SpreadMeasure, Tally};

use super::tolerance::{Asked, with_asked};
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
        Kind::Spread(kind) => {
            let word = match kind.measure {
                SpreadMeasure::Range => "range",
                SpreadMeasure::FarthestFromMean => "farthest from the mean",
            };
            scale(asked, &kind.scale, result, word)
        }
        Kind::Tally(kind) => tally(kind),
        Kind::Judged(judged) => best_level(judged),
        Kind::Faults(_) => "no faults".to_owned(),
    }
}

/// The target and the band with most marks.
fn scale(asked: &Asked<'_>, scale: &Scale, result: &CriterionResult, what: &str) -> String {
    let worked = result.measured.as_ref().map(|measured| &measured.bands);
    let mut best: Option<(usize, Marks)> = None;
    for (index, band) in scale.bands.iter().enumerate() {
        if best.is_none_or(|(_, most)| band.marks > most) {
            best = Some((index, band.marks));
        }
    }
    let limits = best.and_then(|(index, _)| {
        let band = scale.bands.get(index)?;
        let reach = worked.and_then(|bands| bands.bands.get(index).map(|band| band.reach));
        Some(asked.limits(scale, &band.limits, worked.zip(reach)))
    });
    let target = asked.target(scale, worked);
    join([what.to_owned(), target, limits.unwrap_or_default()], " ")
}

fn tally(tally: &Tally) -> String {
    let word = match tally.on_the_limit {
        OnTheLimit::Inside => "up to",
        OnTheLimit::Over => "under",
    };
    let most = tally.allowance.print(tally.dimension.usual_unit());
    format!("{word} {most}")
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
