//! The heat log: what was tapped while a piece was made, and what follows from it.
//!
//! *What is kept* are the taps in their order ([`HeatLog`]); every time and every count is
//! worked out from them anew. *Invariant:* nothing here asks for the time: the page says with
//! each tap what its clocks showed.

mod plan;
mod taps;

pub use plan::{Afterwards, PlannedPart};
pub use taps::{HeatLog, Run, Stop, Tap, What};
