mod bench;
mod dates;
mod learners;
mod start;
mod troubles;
