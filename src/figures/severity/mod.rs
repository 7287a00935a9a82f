//! How severe examiners are: learner, criterion and examiner told apart on one scale.
//!
//! The many-facet rating-scale model (Andrich, Psychometrika 43 (1978) 561; Linacre,
//! Many-Facet Rasch Measurement (1989)): the log odds of level `k` against `k - 1` are
//! `learner - criterion - examiner - step k`. Criteria, examiners and steps have the mean 0.
//! It is fitted by joint maximum likelihood, which takes few ratings of one learner as
//! telling a little more than they do.

mod design;
mod fit;
mod model;
mod quality;
mod scale;

pub use design::{Design, Facet, Rating, Subset};
pub use fit::{Severity, severity};
pub use quality::{Element, Spread};
