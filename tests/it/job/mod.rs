mod messages;
mod queue;
mod worker;
