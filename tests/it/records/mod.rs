mod ledger;
pub mod sample;
mod seal;
mod time;
mod wire;
