//! How a row of pieces goes on: straight lines, trends by rank, control charts, curves of
//! practice, and what the next piece may come to.
//!
//! Pieces are counted in the order in which they were made. Nothing here knows what was
//! made: who asks keeps timed and untimed pieces, practice and exam, and different rubrics
//! apart.

mod control;
mod curve;
mod next;
mod rank;

pub use control::{Cusum, Ewma, Individuals, cusum, ewma, individuals};
pub use curve::{Curve, Fit, fit, practice};
pub use next::{LEAST_PIECES, Next, next_piece};
pub use rank::{MannKendall, TheilSen, lag_one, mann_kendall, theil_sen};
