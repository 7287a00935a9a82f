use thiserror::Error;

use super::taps::{HeatLog, What};
use super::timeline::{Progress, timeline};

/// Why a tap makes no sense after those that are there.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Error)]
pub enum Refusal {
    /// Nothing but notes comes after the end.
    #[error("making has ended here; write a note, or take the end back first")]
    Ended,
    /// A second start.
    #[error("the clock has started already; go on with the heats")]
    Started,
    /// Into the fire, or a whole heat, while one is in the fire.
    #[error("it is in the fire already; tap when it comes out")]
    InFire,
    /// At work, or a second pause, while the clock stands.
    #[error("the clock stands; let it go on first")]
    Paused,
    /// The end of a pause that is none.
    #[error("the clock does not stand; tap a pause first")]
    NotPaused,
}

/// Whether a tap makes sense after those of `log`.
pub fn may(log: &HeatLog, what: &What) -> bool {
    refusal(log, what).is_none()
}

/// Why `what` makes no sense after the taps of `log`; `None` where it does.
pub fn refusal(log: &HeatLog, what: &What) -> Option<Refusal> {
    // What makes sense does not hang on the plan.
    let state = timeline(log, &[]).state;
    let refused = |is_so: bool, why: Refusal| is_so.then_some(why);
    if state.has_ended() {
        return refused(!matches!(what, What::Note { .. }), Refusal::Ended);
    }
    let is_paused = state == Progress::Paused;
    match what {
        What::Start => {
            let is_started = log.taps.iter().any(|tap| tap.what == What::Start);
            refused(is_started, Refusal::Started)
        }
        What::Fire | What::Heat { .. } => refused(is_paused, Refusal::Paused)
            .or_else(|| refused(state == Progress::InFire, Refusal::InFire)),
        What::Anvil { .. } | What::Pause { .. } => refused(is_paused, Refusal::Paused),
        What::Resume => refused(!is_paused, Refusal::NotPaused),
        What::Step { .. }
        | What::Fault { .. }
        | What::Note { .. }
        | What::NotWatched
        | What::Called
        | What::Finished
        | What::Stopped { .. } => None,
    }
}
