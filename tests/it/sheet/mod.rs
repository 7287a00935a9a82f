pub mod beside;
mod rows;
mod rubric;
pub mod sample;
mod scored;
mod tolerance;
