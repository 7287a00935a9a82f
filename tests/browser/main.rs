//! Browser tests.
#![allow(missing_docs)]
fn main() {}
