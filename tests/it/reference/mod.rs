//! Published values, each with its source.

mod contrast;
mod seal;
