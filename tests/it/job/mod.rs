mod messages;
mod papers;
mod photo;
mod queue;
mod strain;
pub mod tables;
mod worker;
