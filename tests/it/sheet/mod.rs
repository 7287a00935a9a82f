mod rows;
pub mod sample;
mod scored;
mod tolerance;
