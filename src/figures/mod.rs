//! Figures about many markings: how well examiners agree, how well a thing can be measured,
//! what a result can be relied on for, how somebody gets on.
//!
//! Everything here is a pure function of numbers: it knows no records and no clock. A figure
//! that does not exist for its numbers is a [`Lacking`], never a made-up value; what rests on
//! chance takes a seed, and the same seed gives the same figure.

pub mod agreement;
mod chance;
mod difference;
pub mod gauge;
pub mod general;
mod integral;
pub mod items;
mod lacking;
mod line;
mod numbers;
pub mod passmark;
mod quartiles;
mod resample;
mod risk;
pub mod severity;
mod share;
mod table;
pub mod trend;

pub use difference::{Difference, newcombe, welch};
pub use lacking::{Interval, Lacking};
pub use line::Line;
pub use numbers::{at_least, mean};
pub use quartiles::{Quartiles, quartiles};
pub use resample::{Resampling, Spread};
pub use risk::{Made, Risks, Within, measured_among, risks};
pub use share::{clopper_pearson, wilson};
