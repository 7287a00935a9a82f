//! What follows from a heat log: where the steel was, and what there is to count.

use crate::quantity::Moment;

use super::elapsed::{Clocks, Jump};
use super::plan::PlannedPart;
use super::taps::{HeatLog, Run, Stop, Tap, What};
use super::walk::Walk;

/// Where the steel was.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Place {
    /// In the fire.
    Fire,
    /// Out of it, at the anvil.
    Anvil,
    /// Nobody said; before the first heat, or where heats are counted in one tap.
    Elsewhere,
    /// Wherever it was, the clock stood.
    Paused,
}

/// A stretch of time at one place on one step.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Stretch {
    /// Its beginning in milliseconds from the start, pauses counted.
    pub from_ms: u64,
    /// Its end.
    pub to_ms: u64,
    /// Where the steel was.
    pub at: Place,
    /// The making step that was named last.
    pub step: Option<String>,
    /// Whether it belongs to a welding heat; at the fire known once it is out.
    pub weld: bool,
}

/// How many, as far as that is known.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Counted {
    /// So many.
    Known(u32),
    /// So many were seen and others may have been.
    AtLeast(u32),
    /// None was seen, which is not none.
    NotCounted,
}

impl Counted {
    /// The number, where it is known.
    pub fn known(self) -> Option<u32> {
        match self {
            Self::Known(count) => Some(count),
            Self::AtLeast(_) | Self::NotCounted => None,
        }
    }
}

/// One making step.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StepTime {
    /// Its id.
    pub step: String,
    /// Heats planned for it.
    pub planned: u32,
    /// Heats that came out while it was on.
    pub heats: u32,
    /// Milliseconds on it, without pauses.
    pub ms: u64,
}

/// How far making has come.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Progress {
    /// Nothing started the clock, nor was it in the fire.
    NotStarted,
    /// Out of the fire, or not yet in it.
    AtAnvil,
    /// In the fire.
    InFire,
    /// The clock stands.
    Paused,
    /// Handed in.
    Finished,
    /// Ended without being finished.
    Stopped(Stop),
}

impl Progress {
    /// Whether making has ended.
    pub fn has_ended(self) -> bool {
        matches!(self, Self::Finished | Self::Stopped(_))
    }
}

/// What follows from a heat log.
///
/// *Units:* milliseconds from the start, or from the first tap where nobody tapped a start.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Timeline {
    /// Without gaps from nothing to `total_ms`; empty ones are left out.
    pub stretches: Vec<Stretch>,
    /// From start to end, or to the last tap or now, pauses counted.
    pub total_ms: u64,
    /// The same without pauses.
    pub worked_ms: u64,
    /// Heats: trips to the fire that came out.
    pub heats: Counted,
    /// Weld heats among them.
    pub weld_heats: Counted,
    /// Time at the fire, without pauses.
    pub fire_ms: u64,
    /// Time at the anvil, without pauses.
    pub anvil_ms: u64,
    /// Every step that was planned, in the plan's order, then others that were named.
    pub steps: Vec<StepTime>,
    /// The step that is on.
    pub step: Option<String>,
    /// Faults, notes and calls: when, and which tap.
    pub marks: Vec<(u64, usize)>,
    /// How far it has come.
    pub state: Progress,
    /// Time of making without pauses, from start to finish. `None` while it runs, where nobody
    /// tapped a start, and where it was stopped: what nobody finished took no time.
    pub time_ms: Option<u64>,
    /// Whether a trip to the fire has not come out; it is no heat yet.
    pub heats_in_fire_open: bool,
    /// Stretches over which the clocks did not agree.
    pub jumps: Vec<Jump>,
}

/// What follows from `log` by the plan `parts`, up to its last tap.
///
/// *Rules:* see [`timeline_at`].
pub fn timeline(log: &HeatLog, parts: &[PlannedPart]) -> Timeline {
    follow(log, parts, None)
}

/// As [`timeline`], up to `now`, as long as making goes on.
///
/// - Time runs from `Start`; taps before it count heats and name steps, and take no time. Without a
///   start it is drawn from the first tap, and how long making took is not known.
/// - A heat is a trip to the fire and counts when it comes out, or by one tap of `Heat`. Into the
///   fire twice is once; out of it without having gone in is a heat whose time there is not known.
/// - A pause stops every clock and leaves the steel where it was; a start ends one from before.
/// - After the end, notes stand as marks and all else is passed over, kept as it was tapped.
/// - How long it was between taps, [`Jump`] tells where clocks did not agree.
pub fn timeline_at(log: &HeatLog, parts: &[PlannedPart], now: (Moment, Option<Run>)) -> Timeline {
    follow(log, parts, Some(Clocks::now(now)))
}

/// Whether the next heat of the plan is a weld heat: of the step that is on, or of the whole plan
/// where none is. Past the plan it is none.
pub fn next_weld(timeline: &Timeline, parts: &[PlannedPart]) -> bool {
    let step = timeline.step.as_deref();
    let done = match step {
        Some(step) => {
            let on = timeline.steps.iter().find(|time| time.step == step);
            on.map_or(0, |time| time.heats)
        }
        None => match timeline.heats {
            Counted::Known(count) | Counted::AtLeast(count) => count,
            Counted::NotCounted => 0,
        },
    };
    let mut left = u64::from(done);
    let parts = parts
        .iter()
        .filter(|part| step.is_none() || part.step.as_deref() == step);
    for part in parts {
        let count = u64::from(part.count);
        if left < count {
            return part.weld;
        }
        left -= count;
    }
    false
}

fn follow(log: &HeatLog, parts: &[PlannedPart], now: Option<Clocks>) -> Timeline {
    let taps = log.taps.as_slice();
    let ends = |tap: &Tap| matches!(tap.what, What::Finished | What::Stopped { .. });
    let end = taps.iter().position(ends);
    let starts = |tap: &Tap| tap.what == What::Start;
    let start = taps.iter().position(starts);
    let start = start.filter(|start| end.is_none_or(|end| *start < end));
    let origin = start.unwrap_or(0);
    let mut walk = Walk::of(parts);
    let mut before: Option<Clocks> = None;
    for (index, tap) in taps.iter().enumerate() {
        let clocks = Clocks::of(tap);
        if let Some(before) = before.filter(|_| index > origin && !walk.has_ended()) {
            walk.pass(clocks.since(before, index));
        }
        before = Some(clocks);
        walk.tap(index, &tap.what);
    }
    if let (Some(now), Some(before)) = (now, before)
        && !walk.has_ended()
    {
        walk.pass(now.since(before, taps.len()));
    }
    walk.finish(start.is_some())
}
