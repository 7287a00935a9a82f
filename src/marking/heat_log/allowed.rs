//! The time allowed, and how it lies over the heats that are planned.

use crate::marking::Facts;
use crate::quantity::Duration;
use crate::rubric::Rubric;

use super::plan::PlannedPart;
use super::timeline::Timeline;

/// A time that is shared out over planned heats, in milliseconds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SharedTime {
    /// The time allowed.
    Allowed(u64),
    /// The time that the piece took so far, where none is allowed.
    Taken(u64),
}

impl SharedTime {
    /// How long it is.
    pub fn ms(self) -> u64 {
        match self {
            Self::Allowed(ms) | Self::Taken(ms) => ms,
        }
    }
}

/// Planned heats of one part, with their share of a time.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PlannedSpan {
    /// The making step.
    pub step: Option<String>,
    /// How many heats; at least one.
    pub count: u32,
    /// Whether they are welding heats.
    pub weld: bool,
    /// Their beginning in milliseconds from the start.
    pub from_ms: u64,
    /// Their end.
    pub to_ms: u64,
}

/// The plan in its order over a time, every heat as long as any other: nobody plans how long a
/// single heat takes.
pub fn planned_spans(parts: &[PlannedPart], time: SharedTime) -> Vec<PlannedSpan> {
    let all: u64 = parts.iter().map(|part| u64::from(part.count)).sum();
    let share = |heats: u64| {
        let product = u128::from(time.ms()) * u128::from(heats);
        let share = product.checked_div(u128::from(all));
        share.and_then(|share| u64::try_from(share).ok())
    };
    let mut before = 0;
    let spans = parts.iter().filter_map(|part| {
        let from = before;
        before += u64::from(part.count);
        (part.count > 0).then_some(())?;
        Some(PlannedSpan {
            step: part.step.clone(),
            count: part.count,
            weld: part.weld,
            from_ms: share(from)?,
            to_ms: share(before)?,
        })
    });
    spans.collect()
}

impl Facts {
    /// The time allowed with what was added by arrangement, where that can be read, in
    /// milliseconds.
    pub fn allowed_ms(&self, rubric: &Rubric) -> Option<u64> {
        let limit = u64::try_from(rubric.time.as_ref()?.limit.base()).ok()?;
        let extra = self.extra_time.as_ref();
        let extra = extra.and_then(|extra| read_ms(&extra.duration));
        Some(limit.saturating_add(extra.unwrap_or(0)))
    }

    /// Milliseconds that count of those worked: pauses that were typed come off, where they can
    /// be read.
    pub fn counted_ms(&self, timeline: &Timeline) -> u64 {
        let stood = self.pauses.iter();
        let stood = stood.filter_map(|pause| read_ms(&pause.duration));
        stood.fold(timeline.worked_ms, u64::saturating_sub)
    }

    /// What planned heats share: the time allowed, or else what the piece took by taps or as it
    /// was entered afterwards; `None` where neither is known.
    pub fn shared_time(&self, rubric: &Rubric, timeline: &Timeline) -> Option<SharedTime> {
        let entered = || read_ms(self.heat_log.afterwards.as_ref()?.time.as_ref()?);
        let tapped = Some(timeline.worked_ms).filter(|ms| *ms > 0);
        let taken = || tapped.or_else(entered).map(SharedTime::Taken);
        self.allowed_ms(rubric)
            .map(SharedTime::Allowed)
            .or_else(taken)
    }
}

fn read_ms(text: &str) -> Option<u64> {
    u64::try_from(Duration::read(text).ok()?.base()).ok()
}
