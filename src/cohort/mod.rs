//! Many learners by one rubric: where each stands in each criterion, who is ready, who has
//! stalled, who has made too few pieces, and what the group as a whole shows.
//!
//! *What:* [`row`] marks only the latest pieces of a learner, so that those in view of a page
//! of five hundred stand at once. [`person`] works out the numbers of all pieces of one
//! learner; a page has them [`Kept`]. A [`Cohort`] is the numbers of all, without records,
//! and [`stand`], [`pass_rates`],
//! [`spreads`], [`weakest_steps`], [`as_test`] and [`compare`] are its figures.
//!
//! *Invariant.* Marks are exact up to the figure. Only pieces that were marked as a whole by
//! somebody else than their maker count. Of a group of fewer than [`LEAST_LEARNERS`] no
//! figure comes out, but a [`Lacking`](crate::figures::Lacking). Nothing here depends on the
//! order of records or on names.

mod compare;
mod group;
mod kept;
mod latest;
mod matrix;
mod person;
mod rates;
mod spreads;
mod standing;
mod steps;
mod test;

pub use compare::{Compared, ComparedRate, Comparison, IN_ONE_ONLY, compare};
pub use group::{Group, groups, members};
pub use kept::Kept;
pub use latest::{Asked, Read, held_pieces, made_last, used_rubrics};
pub use matrix::{Cell, Column, Row, columns, row};
pub use person::{Cohort, Detail, Other, Person, Plan, Worked, person};
pub use rates::{LEAST_LEARNERS, PassRate, RATE_LEVEL, pass_rates};
pub use spreads::{Spread, medians, spreads};
pub use standing::{Alike, READY, RISE_LEVEL, Stand, Standing, WINDOW, stand};
pub use steps::{Example, WeakStep, weakest_steps};
pub use test::{AsTest, as_test};
