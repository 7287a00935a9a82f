//! The invented school: what is in it, and that it goes without a trace.

mod chance;
mod change;
mod cohort;
mod counts;
mod growth;
mod heats;
mod learners;
mod marks;
mod others;
mod removal;
pub mod sample;
mod totals;
