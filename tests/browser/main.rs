//! The page in a real Chromium, driven as a person would: keys, taps, reloads.
//!
//! `scripts/check` builds the page, finds the browser and runs this. By itself:
//! `EVENSHOD_DIST=dist cargo test --test browser`, with `CHROME` and `CHROMEDRIVER`
//! where they are not at their usual places.

#![allow(missing_docs)]
// Clippy takes helpers of tests for production code.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing
)]

mod access;
mod agreement;
mod bar_shoe;
mod board;
mod browser;
mod cdp;
mod cohort;
mod details;
mod documents;
mod drawings;
mod handouts;
mod harness;
mod heats;
mod impression;
mod instruments;
mod invented;
mod keyboard;
#[path = "../../benches/large/mod.rs"]
mod large;
mod late;
mod learner;
mod ledger;
mod milestones;
mod over;
mod own;
mod pages;
mod photo;
mod pictures;
mod plan;
mod print;
mod release;
mod rows;
mod rubrics;
mod sealing;
mod shots;
mod speed;
mod steps;
mod storage;
mod strain;
mod studies;
mod sure;
mod survive;
mod tables;
mod tabs;
mod touch;
mod two;
mod verify;
mod ways;
