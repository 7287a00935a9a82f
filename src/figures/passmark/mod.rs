//! Where to set a pass mark: by pieces that judges call borderline, by the line of marks on
//! judges' ratings, and by what judges expect of a borderline candidate.
//!
//! Each cut has an interval by drawing cases anew with a seed. It says what another set of
//! such cases could have given, not whether the judges are right.

mod angoff;
mod borderline;

pub use angoff::{Angoff, angoff};
pub use borderline::{Borderline, Group, Regression, borderline_group, borderline_regression};
