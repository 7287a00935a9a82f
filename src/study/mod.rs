//! What an instrument study comes to: how far readings of one part lie apart, by one person
//! and by several, and how far off they are where a part's size is known.
//!
//! *What:* [`worked`] reads the grid of a study and makes its figures.
//!
//! *Invariant.* Readings are exact until they enter `figures`. What cannot be read stays as
//! typed and is named by its place. The analysis of people and parts takes whole parts only
//! and says which it left out. Nothing here says a sentence to people, but for why a reading
//! cannot be read.

mod grid;
mod worked;

pub use grid::{Grid, Unreadable};
pub use worked::{LEVEL, PartBias, Suspect, Worked, worked};
