//! Facts and a rubric in, exact marks with their reasons out.
//!
//! *What:* [`mark`] is a pure function; the [`Facts`] are what was seen and
//! measured, as typed. *Invariant:* nothing is stored here and no float takes
//! part: two runs on the same facts and rubric give the same marks, to the
//! last fraction, and every mark says why.

mod agree;
mod bands;
mod byeye;
mod causes;
mod checks;
mod cut;
mod entry;
mod facts;
mod found;
pub mod heat_log;
mod impression;
mod instruments;
mod mark;
mod measured;
mod opened;
mod outline;
mod result;
mod stated;
mod taken;
mod total;
mod words;

pub use agree::{Agreed, Point, PointState, Settled, Settlement, Source, agree};
pub use bands::{Bands, Met, Reach, WorkedBand};
pub use byeye::{counted, numbers_words};
pub use cut::CutFact;
pub use facts::{Facts, InstrumentFact, Lift, Pause, ReadingFact, State, StateFact};
pub use impression::{impression_is_locked, impression_number, is_counted_first};
pub use instruments::{
    Disagreement, Figure, InstrumentFault, PHOTO_GAUGE, PHOTO_GAUGE_ANGLES, disagreement,
    instrument, is_photo_gauge, taken_with,
};
pub use mark::{mark, mark_in};
pub use opened::{EntryOutcome, Opened};
pub use outline::{OutlineFact, OutlineFault, OutlinePlace};
pub use result::{
    Award, CauseResult, CriterionResult, Marking, Measured, Problem, ResultState, SectionResult,
    Stop,
};
pub use stated::{Stated, StatedFault};
pub use taken::{Taken, read_fact};
pub use total::SectionRule;
