mod again;
mod edits;
mod many;
mod own;
mod people;
mod pieces;
