//! The program beside the page: it takes one job after the other and answers.
//!
//! [`perform`] is pure and knows no browser; only `listen` does, and only in WebAssembly.
//! *Invariant.* A request of any text gets an answer. What takes long belongs here, so
//! that the page never stands still.

mod agreement;
mod cohort;
mod course;
#[cfg(target_arch = "wasm32")]
mod listen;
mod papers;
mod perform;
mod photo;
mod scored;
mod sheets;
mod tables;

#[cfg(target_arch = "wasm32")]
pub use listen::listen;
pub use perform::{perform, take};
