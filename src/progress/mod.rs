//! What the pieces of one learner come to over time: marks, single criteria, heats and
//! time, marks lost and heats spent by making step, what to practise, own marks against an
//! examiner's, what they show of the outcomes of a qualification.
//!
//! *What:* plain functions over [`Made`] pieces, oldest first. Everything here counts
//! and adds, but for what the next piece may come to and how pieces change ([`change`],
//! [`usual`], [`practised`], [`own_bias`]), which `figures` works out; the latter takes
//! [`Numbers`] alone, so that a worker can do it without records.
//!
//! *Invariant.* Exact, but for that: shares, means and differences are rationals. Nothing
//! here says a word to people; `present` and `sheet` do.

mod change;
mod criteria;
mod cuts;
mod evidence;
mod made;
mod next;
mod numbers;
mod own;
mod practice;
mod step_heats;
mod steps;
mod tally;

pub use change::{Bias, Change, Practised, Usual, change, own_bias, practised, usual};
pub use criteria::{CriterionCourse, CriterionPoint, criterion_courses};
pub use cuts::{CutPiece, NoCutPiece, cut_piece};
pub use evidence::{OutcomeEvidence, PieceEvidence, UnitEvidence, evidence};
pub use made::{Made, Series, all_series, shown_series};
pub use next::{Kind, LEVEL, NextPiece, after_these, last_alike, made_alike, next_pieces};
pub use numbers::{Numbers, OwnNumbers, PieceNumbers, TallyNumbers};
pub use own::{OwnDifference, Pair, own_differences};
pub use practice::{LATEST, Practice, SeenFault, to_practise};
pub use step_heats::{HeatsSpent, StepHeats, heats_by_step};
pub use steps::{StepLoss, losses_by_step, lost_by_step, steps_lost};
pub use tally::{TallyCourse, tally_courses};
