//! Whether examiners mark alike: what enters, figures by hand, and the plan of a day.

mod blind;
mod day;
mod demo;
mod figures;
mod recomputed;
pub mod sample;
