//! The made shoe, drawn from its numbers.

pub mod sample;
mod shape;
