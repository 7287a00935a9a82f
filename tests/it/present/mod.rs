mod bench;
mod dates;
mod learners;
mod ledger;
mod mark_sheet;
mod seal;
mod start;
mod troubles;
