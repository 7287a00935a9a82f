//! Published values, each with its source.

mod contrast;
mod schemes;
mod seal;
mod units;
