mod edit;
mod errors;
mod expressions;
mod hostile;
pub mod pieces;
mod readme;
pub mod sample;
mod shipped;
mod worked;
