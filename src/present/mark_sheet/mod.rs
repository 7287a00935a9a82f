//! The mark sheet: which rows there are, what each shows, what a key does.
//!
//! [`plan`] depends on the rubric alone, so that rows stay where they are while
//! somebody types; [`face`] is what one row shows for the facts of the moment.

mod blank;
mod call;
mod clock;
mod drawing;
mod face;
mod impression;
mod instruments;
mod keys;
mod paper;
mod paper_notes;
mod paper_state;
mod photos;
mod plan;
mod summary;
mod tiles;

pub use blank::{blank_of_marking, blank_of_rubric};
pub use call::{Call, calls, decisive_first};
pub use clock::{pause_texts, pause_typed, with_first_pause};
pub use drawing::{DrawnShoe, drawn_shoes};
pub use face::{Face, StopLine, face};
pub use impression::{
    ImpressionChoices, ImpressionForm, ImpressionState, impression_form, impression_state,
    next_choice, typed_choice,
};
pub use instruments::{InstrumentTile, chosen_instrument, instrument_tiles, takes_instrument};
pub use keys::{
    Key, Taking, press, seen_words, start_of, step, text_in, times_seen, unit_sign, verdict_of,
    with_fault, with_text,
};
pub use paper::{PaperField, PaperPart, PaperStep, Takes, paper_parts};
pub use paper_notes::{notes_typed, paper_notes};
pub use photos::{PhotoRow, photo_note, photo_rows};
pub use plan::{Input, Order, Part, Row, RowForm, more_words, plan};
pub use summary::{PartState, Summary, part_state, summary, untouched_fault_lists};
pub use tiles::{FaultTile, LevelTile};
