//! Published values, each with its source.

mod contrast;
mod csv;
mod seal;
