//! What an examiner thought at a first look, before anything was measured.

use std::collections::BTreeSet;

use crate::quantity::Marks;
use crate::rubric::{FirstImpression, Rubric, When};

use super::byeye::given_number;
use super::facts::Facts;
use super::heat_log::HeatLog;
use super::result::Problem;

/// Whether the first impression stays as it is, given or not: something else of the
/// finished piece was seen or measured.
///
/// Told by the facts as they are now, so that taking everything else back opens it again.
/// Nothing are instruments that lie ready, readings without a text, and what is noted while
/// the piece is made, when there is no finished piece to look at: entries and readings of
/// `when = "during"`, the heat log, the cut length, pauses and extra time. Without a rubric
/// everything else is something.
pub fn impression_is_locked(rubric: Option<&Rubric>, facts: &Facts) -> bool {
    let mut rest = Facts {
        impression: None,
        pauses: Vec::new(),
        extra_time: None,
        // What was read off them tells.
        outlines: Vec::new(),
        heat_log: HeatLog::default(),
        cut: None,
        ..facts.clone()
    };
    if let Some(counted) = rubric.and_then(Rubric::counted_impression) {
        rest.levels.remove(&counted.id);
    }
    let during = rubric.map(noted_during).unwrap_or_default();
    let is_later = |id: &String| !during.contains(id);
    rest.readings
        .retain(|id, readings| is_later(id) && readings.iter().any(|one| one.is_written()));
    rest.levels.retain(|id, _| is_later(id));
    rest.tallies.retain(|id, _| is_later(id));
    rest.faults.retain(|id, _| is_later(id));
    rest.states.retain(|id, _| is_later(id));
    rest.lifts.retain(|lift| is_later(&lift.entry));
    !rest.is_blank()
}

/// Entries and readings that are looked at while the piece is made.
fn noted_during(rubric: &Rubric) -> BTreeSet<String> {
    let entries = rubric.entries().into_iter();
    let entries = entries.filter(|entry| entry.criterion.when == When::During);
    let slots = rubric.slots().into_iter();
    let slots = slots.filter(|slot| slot.when == When::During);
    entries
        .map(|entry| entry.id)
        .chain(slots.map(|slot| slot.id))
        .collect()
}

/// Whether the first impression counts and was given before all else: the facts hold it
/// twice, as the level of its criterion and as what was thought first.
pub fn is_counted_first(rubric: &Rubric, facts: &Facts) -> bool {
    let counted = rubric.counted_impression();
    let level = counted.and_then(|entry| facts.levels.get(&entry.id));
    level.is_some() && level == facts.impression.as_ref()
}

/// The number that a first impression of its own scale gives. An error says what is wrong
/// with `text`, and what would do.
pub fn impression_number(allowed: &[Marks], text: &str) -> Result<Marks, String> {
    given_number(allowed, text.trim())
}

/// What stands against the first impression in `facts`; it gives no marks either way.
pub(super) fn wrong_impression(rubric: &Rubric, facts: &Facts) -> Option<Problem> {
    let text = facts.impression.as_ref()?;
    let message = match &rubric.first_impression {
        None => format!(
            "the rubric asks for no first impression, and here is `{text}`; take `impression` out"
        ),
        Some(FirstImpression::Apart { allowed, .. }) => {
            let why = impression_number(allowed, text).err()?;
            format!("first impression: {why}")
        }
        Some(FirstImpression::Counts { .. }) if is_counted_first(rubric, facts) => return None,
        Some(FirstImpression::Counts { criterion }) => format!(
            "the first impression `{text}` is not what was given for `{criterion}`, which counts; \
             give one level at both, or take `impression` out"
        ),
    };
    Some(Problem {
        id: String::new(),
        message,
    })
}
