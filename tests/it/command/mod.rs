mod edits;
mod people;
mod pieces;
