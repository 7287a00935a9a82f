mod messages;
mod papers;
mod queue;
mod strain;
pub mod tables;
mod worker;
