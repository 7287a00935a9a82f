mod print;
mod read;
