mod edit;
mod errors;
mod expressions;
mod hostile;
mod readme;
pub mod sample;
mod shipped;
mod worked;
