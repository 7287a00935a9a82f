pub mod beside;
mod learner;
mod rows;
mod rubric;
pub mod sample;
mod scored;
mod sure;
mod tolerance;
