//! What pages show.
pub mod mark_sheet;
