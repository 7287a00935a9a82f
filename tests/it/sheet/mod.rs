pub mod beside;
mod learner;
mod rows;
mod rubric;
pub mod sample;
mod scored;
mod seal;
mod sure;
mod tolerance;
