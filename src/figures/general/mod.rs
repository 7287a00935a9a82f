//! Generalizability: how much of a mark belongs to the piece, to who marks it and to what it
//! is marked on, and how far marks can be relied on beyond those who happened to mark.
//!
//! After R. L. Brennan, Generalizability Theory, 2001. A [`Design`] says which facets cross
//! and which stand within others; [`Analysis::of`] takes balanced marks apart,
//! [`crossed_with_gaps`] those of persons by one facet where cells are empty; both give
//! [`Components`], and [`Components::decide`] says what other numbers of facets would give.

mod analysis;
mod components;
mod decide;
mod design;
mod gaps;

pub use analysis::{Analysis, Source};
pub use components::{Component, Components};
pub use decide::{Choice, Coefficient, Decision, Planned, least};
pub use design::{Design, Facet};
pub use gaps::crossed_with_gaps;
