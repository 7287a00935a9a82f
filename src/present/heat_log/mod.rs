//! The heat log of one marking: a running clock, what can be tapped now, and what came of it.

mod after;
mod buttons;
mod clock;
mod drawn;
mod result;

pub use after::{AfterForm, after_form, after_typed, with_planned};
pub use buttons::{BigTap, FaultTile, HeatButtons, StepTile, heat_buttons, stop_choices};
pub use clock::{HeatClock, heat_clock};
pub use result::{HeatResult, heat_result};

pub use crate::sheet::{ANVIL_CAUTION, spoken};
