//! Published values, each with its source.

mod contrast;
mod csv;
mod cuts;
mod en;
mod heat;
mod proportions;
mod schemes;
mod seal;
mod stock;
mod units;
