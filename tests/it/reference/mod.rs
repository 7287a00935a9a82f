//! Published values, each with its source.

mod contrast;
mod csv;
mod schemes;
mod seal;
mod units;
