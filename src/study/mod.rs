//! What an instrument study comes to: how far readings of one part lie apart, by one person
//! and by several, and how far off they are where a part's size is known.
//!
//! *What:* [`worked`] reads the grid of a study and makes its figures; [`taken`] is what an
//! instrument takes over from it.
//!
//! *Invariant.* Readings are exact until they enter `figures`. What cannot be read stays as
//! typed and is named by its place. The analysis of people and parts takes whole parts only
//! and says which it left out. Nothing here says a sentence to people, but for why a reading
//! cannot be read and what a source says.

mod grid;
mod known;
mod take;
mod worked;

pub use grid::{Grid, Unreadable};
pub use known::{Found, PartBias};
pub use take::{Taken, taken};
pub use worked::{LEVEL, Suspect, Worked, worked};
