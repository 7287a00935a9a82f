mod readme;
pub mod sample;
mod shipped;
