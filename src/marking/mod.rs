//! Facts and a rubric in, marks with their reasons out.

mod facts;

pub use facts::{Facts, Lift, Pause, ReadingFact, State, StateFact};
