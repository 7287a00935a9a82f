//! Checks against the outside world, the source beside each.

mod contrast;
