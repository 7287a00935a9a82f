//! The made shoe, drawn from its numbers.

mod mirror;
pub mod sample;
mod shape;
