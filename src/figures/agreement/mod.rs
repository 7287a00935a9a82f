//! How well several raters agree who marked the same things.
//!
//! *What.* One figure to a file, each with its formula and source. A figure for a whole table
//! takes [`Ratings`], one for two raters takes their scores side by side. Papers are cited from
//! memory; what was seen of them is in the tests.
//!
//! *Invariant.* Every figure is finite or a `Lacking`. The order of targets and of raters does
//! not matter, but for which of two raters comes first in a difference. No p-value stands
//! alone: it comes with its statistic, and the figure with an interval where theory gives one;
//! [`bootstrap`] gives one for any figure of a table.

mod alpha;
mod bootstrap;
mod components;
mod concordance;
mod fleiss;
mod icc;
mod kappa;
mod kendall;
mod limits;
mod mean_squares;
mod ratings;
mod repeated;
mod tests;
mod weights;
mod within;

pub use alpha::{Metric, alpha, alpha_bootstrap};
pub use bootstrap::bootstrap;
pub use components::{Components, components};
pub use concordance::{Concordance, concordance};
pub use fleiss::{CategoryKappa, FleissKappa, fleiss_kappa};
pub use icc::{Icc, Model, Score, icc, icc_bootstrap};
pub use kappa::{Kappa, cohen_kappa};
pub use kendall::{Kendall, kendall_w};
pub use limits::{Estimate, Limits, LimitsAsked, bland_altman};
pub use mean_squares::{MeanSquares, mean_squares};
pub use ratings::Ratings;
pub use repeated::{Repeated, bland_altman_constant, bland_altman_varying};
pub use tests::{ChiSquaredTest, FTest, ZTest};
pub use weights::Weights;
pub use within::{Within, within};
