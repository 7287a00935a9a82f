mod bench;
mod dates;
mod learners;
mod seal;
mod start;
mod troubles;
