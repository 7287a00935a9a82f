mod again;
mod edits;
mod many;
mod people;
mod pieces;
