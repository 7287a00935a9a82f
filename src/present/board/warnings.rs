//! What a tile warns of.

use crate::marking::Facts;
use crate::marking::heat_log::{HeatLog, Place, PlannedPart, Timeline, What, timeline};
use crate::present::heat_log::fault_name;
use crate::rubric::{Kind, Rubric, TallyOf};

/// So much is left when the time is nearly up: common practice, no source.
const NEARLY_UP_MS: u64 = 5 * 60_000;

/// Something that whoever watches should know.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Warning {
    /// A fault was seen.
    Fault(String),
    /// So many minutes are left.
    NearlyUp,
    /// The time is over.
    Over,
    /// More heats than so many, which were planned.
    OverPlan(u32),
    /// More heats than so many, which cost nothing.
    OverAllowance(u32),
}

/// The warning that came last, with when it came in milliseconds from the start, pauses counted.
pub(super) fn last_warning(
    rubric: &Rubric,
    facts: &Facts,
    parts: &[PlannedPart],
    line: &Timeline,
) -> Option<(u64, Warning)> {
    let faults = faults(rubric, &facts.heat_log, line);
    let times = times(rubric, facts, line);
    let heats = heats(rubric, &facts.heat_log, parts);
    // Of several at once the last of these is told.
    let all = times.into_iter().chain(heats).chain(faults);
    all.max_by_key(|(ms, _)| *ms)
}

fn faults(rubric: &Rubric, log: &HeatLog, line: &Timeline) -> Vec<(u64, Warning)> {
    let seen = line.marks.iter().filter_map(|(ms, tap)| {
        let What::Fault { entry, fault } = &log.taps.get(*tap)?.what else {
            return None;
        };
        Some((*ms, Warning::Fault(fault_name(rubric, entry, fault))))
    });
    seen.collect()
}

fn times(rubric: &Rubric, facts: &Facts, line: &Timeline) -> Vec<(u64, Warning)> {
    // What was tapped before a start has no time.
    let taps = &facts.heat_log.taps;
    let is_started = taps.iter().any(|tap| tap.what == What::Start);
    let Some(limit) = facts.allowed_ms(rubric).filter(|_| is_started) else {
        return Vec::new();
    };
    let counted = facts.counted_ms(line);
    // Pauses that were typed are of no known time; they push the end out.
    let typed = line.worked_ms - counted;
    let at = |ms: u64| when_worked(line, ms.saturating_add(typed));
    let nearly = limit.checked_sub(NEARLY_UP_MS).filter(|from| *from > 0);
    let nearly = nearly.filter(|from| counted >= *from);
    let nearly = nearly.map(|from| (at(from), Warning::NearlyUp));
    let over = (counted > limit).then(|| (at(limit), Warning::Over));
    nearly.into_iter().chain(over).collect()
}

/// When so much was worked, in milliseconds from the start, pauses counted.
fn when_worked(line: &Timeline, mut worked: u64) -> u64 {
    for stretch in line.stretches.iter().filter(|one| one.at != Place::Paused) {
        let long = stretch.to_ms - stretch.from_ms;
        if worked <= long {
            return stretch.from_ms + worked;
        }
        worked -= long;
    }
    line.total_ms
}

fn heats(rubric: &Rubric, log: &HeatLog, parts: &[PlannedPart]) -> Vec<(u64, Warning)> {
    let planned = parts.iter().map(|part| part.count);
    let planned = planned.fold(0_u32, u32::saturating_add);
    let planned = Some(planned).filter(|planned| *planned > 0);
    let allowed = allowed(rubric);
    // What costs marks goes before a plan that says the same.
    let planned = planned.filter(|planned| Some(*planned) != allowed);
    let over = |count: Option<u32>, warning: fn(u32) -> Warning| {
        let count = count?;
        Some((when_over(log, count)?, warning(count)))
    };
    let all = [
        over(planned, Warning::OverPlan),
        over(allowed, Warning::OverAllowance),
    ];
    all.into_iter().flatten().collect()
}

/// Heats that cost nothing, where the rubric counts them.
fn allowed(rubric: &Rubric) -> Option<u32> {
    let entries = rubric.entries().into_iter();
    let mut tallies = entries.filter_map(|entry| match &entry.criterion.kind {
        Kind::Tally(tally) if tally.counts == Some(TallyOf::Heats) => Some(tally.allowance),
        _ => None,
    });
    u32::try_from(tallies.next()?.base.floor()).ok()
}

/// When the first heat past `count` came out.
fn when_over(log: &HeatLog, count: u32) -> Option<u64> {
    let is_heat = |what: &What| matches!(what, What::Anvil { .. } | What::Heat { .. });
    let is_end = |what: &What| matches!(what, What::Finished | What::Stopped { .. });
    let taps = log.taps.iter().enumerate();
    let taps = taps.take_while(|(_, tap)| !is_end(&tap.what));
    let mut heats = taps.filter(|(_, tap)| is_heat(&tap.what));
    let (index, _) = heats.nth(usize::try_from(count).ok()?)?;
    let until = HeatLog {
        taps: log.taps.iter().take(index + 1).cloned().collect(),
        ..HeatLog::default()
    };
    Some(timeline(&until, &[]).total_ms)
}
