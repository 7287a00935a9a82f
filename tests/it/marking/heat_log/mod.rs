//! Heat logs: taps in, times, heats and tallies out. Times are worked out by hand in comments.

mod clocks;
mod count;
mod line;
mod props;
mod shared;
mod tally;

use evenshod::marking::heat_log::{HeatLog, PlannedPart, Run, Tap, What};
use evenshod::quantity::Moment;

/// 25 Nov 2026, 10:42 UTC.
const ZERO_MS: i64 = 1_795_603_320_000;

/// A tap at so many seconds of both clocks, on page 1.
pub fn at(seconds: u32, what: What) -> Tap {
    on(1, seconds, i64::from(seconds), what)
}

/// A tap on a page at so many seconds of its own clock and of the device's.
pub fn on(page: u32, run: u32, clock: i64, what: What) -> Tap {
    let ms = u64::from(run) * 1000;
    Tap {
        at: Moment::new(ZERO_MS + clock * 1000, 0),
        run: Some(Run { page, ms }),
        what,
    }
}

pub fn out() -> What {
    What::Anvil { weld: false }
}

pub fn weld() -> What {
    What::Anvil { weld: true }
}

pub fn step(step: &str) -> What {
    What::Step {
        step: step.to_owned(),
    }
}

pub fn pause() -> What {
    What::Pause {
        reason: "gas".to_owned(),
    }
}

pub fn log(taps: impl IntoIterator<Item = Tap>) -> HeatLog {
    HeatLog {
        taps: taps.into_iter().collect(),
        ..HeatLog::default()
    }
}

pub fn part(step: &str, count: u32, weld: bool) -> PlannedPart {
    PlannedPart {
        part: step.to_owned(),
        step: (!step.is_empty()).then(|| step.to_owned()),
        count,
        weld,
    }
}
