mod bench;
mod dates;
mod learners;
mod mark_sheet;
mod rubrics;
mod seal;
mod start;
mod troubles;
