mod messages;
mod queue;
mod sheets;
pub mod tables;
mod worker;
