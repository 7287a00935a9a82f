//! Reloads, killed browsers: what was typed is there.
