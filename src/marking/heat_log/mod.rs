//! The heat log: what was tapped while a piece was made, and what follows from it.
//!
//! *What is kept* are the taps in their order ([`HeatLog`]); every time and every count is
//! worked out from them anew. *Invariant:* nothing here asks for the time: the page says with
//! each tap what its clocks showed.

mod allowed;
mod by_step;
mod count;
mod elapsed;
mod known;
mod may;
mod plan;
mod steps;
mod taken_over;
mod tally;
mod taps;
mod timeline;
mod walk;

pub use allowed::{PlannedSpan, SharedTime, planned_spans};
pub use elapsed::Jump;
pub(in crate::marking) use known::unknown_in_log;
pub use may::{Refusal, may, refusal};
pub use plan::{Afterwards, PlannedPart};
pub use taken_over::{TakenOver, is_observed};
pub use tally::TallySource;
pub use taps::{HeatLog, Run, Stop, Tap, What};
pub use timeline::{
    Counted, Place, Progress, StepTime, Stretch, Timeline, next_weld, timeline, timeline_at,
};
