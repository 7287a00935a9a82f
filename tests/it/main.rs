//! Everything that is tested without a browser, in one program.

// Clippy takes helpers of tests for production code.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing
)]

mod chart;
mod cohort;
mod command;
mod conformity;
mod demo;
mod examples;
mod figures;
mod gauge;
mod job;
mod marking;
mod moderation;
mod output;
mod piece;
mod plan;
mod present;
mod progress;
mod quantity;
mod records;
mod reference;
mod rooms;
mod rubric;
mod sheet;
mod store;
mod study;
