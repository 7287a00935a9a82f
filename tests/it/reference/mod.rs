//! Published values, each with its source.

mod contrast;
mod csv;
mod en;
mod schemes;
mod seal;
mod units;
