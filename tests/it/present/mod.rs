mod bench;
mod dates;
mod learners;
mod mark_sheet;
mod start;
mod troubles;
