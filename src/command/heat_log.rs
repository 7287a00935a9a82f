//! Taps of the heat log, and taking the last one back.

use super::error::CommandError;
use crate::marking::Facts;
use crate::marking::heat_log::{TakenOver, Tap, What, is_observed, refusal};

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
    let left = u32::try_from(index).unwrap_or(u32::MAX);
    let log = &mut facts.heat_log;
    log.taken_over = log.taken_over.take().filter(|_| left > 0);
    if let Some(taken) = &mut log.taken_over {
        taken.taps = taken.taps.min(left);
    }
    Ok(())
}

/// Puts the taps of another log into one that has none; faults and notes stay with who noted them.
/// How many there are is told by themselves.
pub(super) fn take_over_log(
    facts: &mut Facts,
    from: TakenOver,
    mut taps: Vec<Tap>,
) -> Result<(), CommandError> {
    taps.retain(|tap| is_observed(&tap.what));
    let taken = TakenOver {
        taps: u32::try_from(taps.len()).unwrap_or(u32::MAX),
        ..from
    };
    let log = &mut facts.heat_log;
    let is_there = log.taps == taps && log.taken_over.as_ref() == Some(&taken);
    if is_there || taps.is_empty() {
        return Ok(());
    }
    if !log.taps.is_empty() {
        return Err(CommandError::LogNotEmpty);
    }
    log.taps = taps;
    log.taken_over = Some(taken);
    Ok(())
}

/// Takes out again what was taken over, as long as nothing was tapped since.
pub(super) fn give_back_log(facts: &mut Facts) -> Result<(), CommandError> {
    let log = &mut facts.heat_log;
    if log.taken_over.is_none() {
        return Ok(());
    }
    if log.taps.len() > log.taken_over_taps() {
        return Err(CommandError::TapNotLast);
    }
    log.taps.clear();
    log.taken_over = None;
    Ok(())
}
