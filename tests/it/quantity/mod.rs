mod exact;
mod print;
mod read;
