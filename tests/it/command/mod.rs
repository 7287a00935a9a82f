mod again;
mod details;
mod edits;
mod instruments;
mod many;
mod own;
mod people;
mod pieces;
