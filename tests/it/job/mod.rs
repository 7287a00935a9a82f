mod messages;
mod papers;
mod queue;
pub mod tables;
mod worker;
