mod messages;
mod papers;
mod queue;
mod worker;
