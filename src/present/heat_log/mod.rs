//! The heat log of one marking: a running clock, what can be tapped now, and what came of it.

mod after;
mod buttons;
mod clock;
mod cut;
mod drawn;
mod faults;
mod other;
mod planned;
mod result;
mod words;

pub use after::{AfterForm, after_form, after_typed, heats_wrong, time_wrong, with_planned};
pub use buttons::{BigTap, HeatButtons, StepTile, heat_buttons, stop_choices};
pub(super) use clock::left_ms;
pub use clock::{HeatClock, heat_clock};
pub use cut::{cut_text, cut_typed, cut_wrong};
pub use faults::FaultTile;
pub(super) use faults::fault_tiles;
pub use other::{LogOffer, LogTaken, TAKING_OVER_DOES, log_offers, log_taken, take_over_log};
pub use result::{HeatResult, heat_result};

pub(super) use words::{fault_name, state_words};

pub use crate::sheet::{ANVIL_CAUTION, spoken};
