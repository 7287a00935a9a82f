mod again;
mod details;
mod edits;
mod many;
mod people;
mod pieces;
