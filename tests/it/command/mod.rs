mod again;
mod amend;
mod details;
mod edits;
mod many;
mod own;
mod people;
mod pieces;
