mod bundle;
mod ledger;
mod merge;
pub mod sample;
mod schema;
mod seal;
mod standing;
mod time;
mod wire;
