//! Published values, each with its source.

mod seal;
