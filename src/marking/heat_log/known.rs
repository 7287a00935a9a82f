use std::collections::BTreeSet;

use crate::marking::Facts;
use crate::marking::result::Problem;
use crate::rubric::{Entry, Rubric};

use super::taps::What;

/// What the heat log names and the rubric does not have, each once. What stands among the faults
/// noted too is told of there.
pub(in crate::marking) fn unknown_in_log(
    rubric: &Rubric,
    entries: &[Entry<'_>],
    facts: &Facts,
) -> Vec<Problem> {
    let is_noted = |entry: &str, fault: &str| {
        let noted = facts.faults.get(entry);
        noted.is_some_and(|noted| noted.iter().any(|id| id == fault))
    };
    let has_fault = |entry: &str, fault: &str| {
        let mut entries = entries.iter().filter(|known| known.id == entry);
        entries.any(|known| known.criterion.faults.iter().any(|one| one.id == fault))
    };
    let steps = steps(facts).into_iter();
    let steps = steps.filter(|step| rubric.step(step).is_none());
    let steps = steps.map(|step| Problem {
        id: step.to_owned(),
        message: format!(
            "the rubric has no making step `{step}`, which the heat log names; use an id of the \
             rubric"
        ),
    });
    let faults: BTreeSet<(&str, &str)> = facts.heat_log.taps.iter().filter_map(fault).collect();
    let faults = faults.into_iter();
    let faults =
        faults.filter(|(entry, fault)| !has_fault(entry, fault) && !is_noted(entry, fault));
    let faults = faults.map(|(entry, fault)| Problem {
        id: entry.to_owned(),
        message: format!(
            "the rubric has no fault `{fault}` at `{entry}`, which the heat log names; use ids of \
             the rubric, with the shoe before the entry where the piece has several"
        ),
    });
    steps.chain(faults).collect()
}

fn fault(tap: &super::taps::Tap) -> Option<(&str, &str)> {
    match &tap.what {
        What::Fault { entry, fault } => Some((entry, fault)),
        _ => None,
    }
}

/// Every step that taps, plan and what was entered afterwards name.
fn steps(facts: &Facts) -> BTreeSet<&str> {
    let log = &facts.heat_log;
    let tapped = log.taps.iter().filter_map(|tap| match &tap.what {
        What::Step { step } => Some(step.as_str()),
        _ => None,
    });
    let plan = log.plan.iter().flatten();
    let planned = plan.filter_map(|part| part.step.as_deref());
    let entered = log.afterwards.iter();
    let entered = entered.flat_map(|entered| entered.heats.keys());
    let entered = entered.map(String::as_str).filter(|step| !step.is_empty());
    tapped.chain(planned).chain(entered).collect()
}
