mod messages;
mod queue;
mod sheets;
mod worker;
