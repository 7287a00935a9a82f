//! Rows of the mark sheet: what stands beside an entry, and undo.
