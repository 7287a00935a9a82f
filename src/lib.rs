//! Evenshod: marks for made horseshoes, exact and with their reasons.
//!
//! The rooms, in the order in which they may import each other, are listed in
//! DEVELOPERS.md; `tests/it/rooms.rs` holds the code to that table.

pub mod chart;
pub mod cohort;
pub mod command;
pub mod conformity;
pub mod demo;
pub mod figures;
pub mod gauge;
pub mod job;
pub mod marking;
pub mod moderation;
pub mod output;
#[cfg(all(target_arch = "wasm32", feature = "page"))]
pub mod page;
pub mod piece;
pub mod plan;
pub mod present;
pub mod progress;
pub mod quantity;
pub mod records;
pub mod rubric;
pub mod sheet;
pub mod store;
pub mod study;
pub mod worker;
