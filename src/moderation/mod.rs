//! Whether examiners mark alike: which pieces several of them marked apart, how far their
//! marks, readings and levels lie from one another, what that asks of the rubric and of a
//! day on which they come together.
//!
//! *What:* [`Gathered`] collects the blind first markings of one version of a rubric;
//! [`agreement`] makes the figures of them; [`plan_day`] shares pieces out among examiners.
//!
//! *Invariant.* Only blind first markings enter: sealed, by an examiner alone, before any
//! correction, one of each examiner, and none of a piece of which a blind marking is still
//! open. Neither the order of records nor a name changes a figure. From fewer than five
//! pieces nothing is claimed. Marks are exact up to `figures`; nothing here says a word to
//! people, `sheet` does.

mod agreement;
mod blind;
mod candidates;
mod criteria;
mod day;
mod descriptors;
mod judged;
mod needs;
mod pairs;
mod readings;
mod strictness;
mod totals;

pub use agreement::{Agreement, agreement};
pub use blind::{By, Gathered, Offer, Seen, blind_firsts, offers};
pub use candidates::{Candidate, candidates};
pub use criteria::{CriterionAgreement, CriterionFigures};
pub use day::{DayFault, DayPlan, least_each, plan_day};
pub use descriptors::{Descriptors, Mixed, TENTATIVE, to_rewrite};
pub use judged::{JudgedFigures, KAPPA_WEIGHTS};
pub use needs::{MOST_EXAMINERS, MOST_PIECES, Needs, OnePiece, SeveralPieces};
pub use pairs::{PairLimits, PairPoint};
pub use readings::ReadingFigures;
pub use strictness::{ExaminerStrictness, Strictness, StrictnessLack};
pub use totals::{TotalsFigures, TotalsIcc};

use crate::figures::Resampling;

/// From fewer pieces no figure is made.
pub const LEAST: usize = 5;
/// The level of every interval.
pub const LEVEL: f64 = 0.95;
/// How intervals are drawn where theory gives none. The seed is fixed, so that the same
/// markings give the same figures.
const DRAWS: Resampling = Resampling {
    seed: 5725,
    draws: 1000,
    level: LEVEL,
};
