mod again;
mod agree;
mod details;
mod edits;
mod many;
mod own;
mod people;
mod pieces;
