//! The first impression: given before all else, or not at all.

use std::sync::Arc;

use super::edit::set;
use super::error::CommandError;
use crate::marking::{Facts, impression_is_locked, is_counted_first};
use crate::records::{Ledger, Marking};
use crate::rubric::{Rubric, read_rubric};

/// The rubric of `marking`, where it asks for a first impression.
pub(super) fn first_look_rubric(ledger: &Ledger, marking: &Marking) -> Option<Arc<Rubric>> {
    let text = &ledger.rubric(&marking.rubric)?.text;
    // Few ask for one, and reading a rubric with each level would be felt on a phone.
    if !text.contains("first_impression") {
        return None;
    }
    read_rubric(text).rubric.map(Arc::new)
}

/// Looks the rubric up that asks for a first impression.
#[derive(Clone, Copy)]
pub(super) struct Look<'r>(pub(super) &'r dyn Fn() -> Option<Arc<Rubric>>);

/// Writes the level of an entry. Where the rubric counts it as the first impression it is
/// kept as that too if nothing was seen before, and then stays once something is.
pub(super) fn set_level(
    facts: &mut Facts,
    entry: String,
    level: Option<String>,
    look: Look<'_>,
) -> Result<(), CommandError> {
    let rubric = (look.0)();
    match rubric.filter(|rubric| is_counted(rubric, &entry)) {
        Some(rubric) => set_counted(facts, entry, level, &rubric),
        None => {
            set(&mut facts.levels, entry, level);
            Ok(())
        }
    }
}

/// Writes what was thought at a first look.
pub(super) fn set_impression(
    facts: &mut Facts,
    impression: Option<String>,
    look: Look<'_>,
) -> Result<(), CommandError> {
    let rubric = (look.0)();
    let counted = rubric.as_deref().and_then(Rubric::counted_impression);
    if let (Some(rubric), Some(counted)) = (&rubric, counted) {
        return set_counted(facts, counted.id, impression, rubric);
    }
    if impression_is_locked(rubric.as_deref(), facts) {
        return Err(match facts.impression {
            Some(_) => CommandError::ImpressionLocked,
            None => CommandError::ImpressionLate,
        });
    }
    facts.impression = impression;
    Ok(())
}

/// A level that was not given before all else may be given later; it is none then.
fn set_counted(
    facts: &mut Facts,
    entry: String,
    level: Option<String>,
    rubric: &Rubric,
) -> Result<(), CommandError> {
    let is_locked = impression_is_locked(Some(rubric), facts);
    if is_locked && is_counted_first(rubric, facts) {
        return Err(CommandError::ImpressionLocked);
    }
    if !is_locked {
        facts.impression.clone_from(&level);
    }
    set(&mut facts.levels, entry, level);
    Ok(())
}

/// A state would take the place of the level, so it is refused where that is locked.
pub(super) fn refuse_state(facts: &Facts, entry: &str, look: Look<'_>) -> Result<(), CommandError> {
    if facts.impression.is_none() {
        return Ok(());
    }
    let rubric = (look.0)();
    let rubric =
        rubric.filter(|rubric| is_counted(rubric, entry) && is_counted_first(rubric, facts));
    match rubric {
        Some(rubric) if impression_is_locked(Some(&rubric), facts) => {
            Err(CommandError::ImpressionLocked)
        }
        _ => Ok(()),
    }
}

/// Puts the first impression of `stood` back where undoing has changed it, though another
/// tab has measured or judged something meanwhile.
pub(super) fn keep_locked(facts: &mut Facts, stood: Facts, look: Look<'_>) {
    if facts.impression == stood.impression {
        return;
    }
    let rubric = (look.0)();
    if !impression_is_locked(rubric.as_deref(), facts) {
        return;
    }
    if let Some(counted) = rubric.as_deref().and_then(Rubric::counted_impression) {
        let level = stood.levels.get(&counted.id).cloned();
        set(&mut facts.levels, counted.id, level);
    }
    facts.impression = stood.impression;
}

fn is_counted(rubric: &Rubric, entry: &str) -> bool {
    let counted = rubric.counted_impression();
    counted.is_some_and(|counted| counted.id == entry)
}
