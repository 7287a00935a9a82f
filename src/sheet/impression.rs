//! The first impression, for comparison with what was marked.

use crate::marking::{Facts, impression_number, is_counted_first, numbers_words};
use crate::quantity::{Exact, Marks};
use crate::rubric::{FirstImpression, Judged, Kind, Rubric};

use super::award::percent;
use super::readings::level_name;
use super::scored::Scored;
use super::words::percent_words;

/// What was thought at a first look, as people say it: `7 of 10`, or a level's name.
/// `None` where nothing was given before all else, or nothing that can be used.
pub fn impression_words(rubric: &Rubric, facts: &Facts) -> Option<String> {
    let text = facts.impression.as_deref()?;
    match rubric.first_impression.as_ref()? {
        FirstImpression::Apart { allowed, .. } => {
            let given = impression_number(allowed, text).ok()?;
            Some(format!("{given} of {}", allowed.last()?))
        }
        FirstImpression::Counts { .. } => {
            let counted = rubric.counted_impression()?;
            let Kind::Judged(judged) = &counted.criterion.kind else {
                return None;
            };
            is_counted_first(rubric, facts).then(|| match judged {
                Judged::Levels(_) => level_name(judged, text),
                Judged::Numbers { .. } => {
                    format!("{text} of {}", counted.criterion.most_unweighted())
                }
            })
        }
    }
}

/// The first impression in a sentence, beside the total where there is one; `None` where
/// there is nothing to say.
pub(super) fn impression_sentence(scored: &Scored<'_>) -> Option<String> {
    let rubric = scored.rubric;
    let words = impression_words(rubric, scored.facts());
    match (rubric.first_impression.as_ref()?, words) {
        (FirstImpression::Apart { allowed, .. }, words) => {
            let words = words?;
            let share = share(allowed, scored.facts())
                .map_or_else(String::new, |share| format!(" ({})", percent_words(share)));
            let outcome = &scored.outcome;
            let beside = if outcome.complete {
                format!("; the marks are {}", percent(outcome.percent))
            } else {
                String::new()
            };
            Some(format!(
                "First impression {words}{share}, given before measuring, not counted{beside}."
            ))
        }
        (FirstImpression::Counts { .. }, Some(words)) => Some(format!(
            "First impression {words}, given before measuring, counted as {}.",
            rubric.counted_impression()?.name()
        )),
        (FirstImpression::Counts { .. }, None) => is_late(scored).then_some(format!(
            "{} counts as the first impression and was given after measuring.",
            rubric.counted_impression()?.name()
        )),
    }
}

/// The first impression for a list of facts; `None` where the rubric asks for none.
pub(super) fn impression_fact(scored: &Scored<'_>) -> Option<String> {
    scored.rubric.first_impression.as_ref()?;
    Some(match impression_words(scored.rubric, scored.facts()) {
        Some(words) => format!("{words}, before measuring"),
        None if is_late(scored) => "given after measuring".to_owned(),
        None => "none given".to_owned(),
    })
}

/// Whether what counts as the first impression was judged, and not before all else.
fn is_late(scored: &Scored<'_>) -> bool {
    let counted = scored.rubric.counted_impression();
    counted.is_some_and(|counted| {
        let is_judged = scored.facts().levels.contains_key(&counted.id);
        is_judged && !is_counted_first(scored.rubric, scored.facts())
    })
}

/// In per cent of the most that could be given.
fn share(allowed: &[Marks], facts: &Facts) -> Option<Exact> {
    let given = impression_number(allowed, facts.impression.as_deref()?).ok()?;
    given.percent_of(*allowed.last()?)
}

/// What a rubric asks for at a first look, in a line; empty where it asks for nothing.
pub(super) fn asked_words(rubric: &Rubric) -> String {
    match &rubric.first_impression {
        None => String::new(),
        Some(FirstImpression::Apart { ask, allowed }) => {
            format!("“{ask}” {}, not counted", numbers_words(allowed))
        }
        Some(FirstImpression::Counts { criterion }) => {
            let counted = rubric.counted_impression();
            let name = counted.map_or_else(|| criterion.clone(), |entry| entry.name());
            format!("counted as {name}")
        }
    }
}
