//! What is planned before the fire is lit.

mod choice;
mod cuts;
mod developed;
mod hostile;
mod layout;
mod masses;
mod proportions;
mod record;
pub mod sample;
