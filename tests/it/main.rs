//! The native tests, one binary.

mod reference;
