//! Taps of the heat log, and taking the last one back.

use super::error::CommandError;
use crate::marking::Facts;
use crate::marking::heat_log::{Tap, What, refusal};

/// Adds a tap; one of a fault notes the fault at its entry too. The same tap, to the millisecond
/// of its clocks, is there once: a command may be carried out again after a loss of contact.
pub(super) fn tap(facts: &mut Facts, tap: Tap) -> Result<(), CommandError> {
    if facts.heat_log.taps.contains(&tap) {
        return Ok(());
    }
    if let Some(why) = refusal(&facts.heat_log, &tap.what) {
        return Err(CommandError::TapRefused(why));
    }
    if let What::Fault { entry, fault } = &tap.what {
        let noted = facts.faults.entry(entry.clone()).or_default();
        noted.push(fault.clone());
    }
    facts.heat_log.taps.push(tap);
    Ok(())
}

/// Takes the tap `index` back if it is the last, and the fault that it noted. An entry whose only
/// fault that was is not looked at again: that there are none, nobody has said.
pub(super) fn take_back_tap(facts: &mut Facts, index: usize) -> Result<(), CommandError> {
    let taps = &mut facts.heat_log.taps;
    if taps.len() != index.saturating_add(1) {
        return Err(CommandError::TapNotLast);
    }
    if let Some(What::Fault { entry, fault }) = taps.pop().map(|tap| tap.what)
        && let Some(noted) = facts.faults.get_mut(&entry)
        && let Some(place) = noted.iter().rposition(|id| *id == fault)
    {
        noted.remove(place);
        if noted.is_empty() {
            facts.faults.remove(&entry);
        }
    }
    Ok(())
}
