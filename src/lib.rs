//! Evenshod.
