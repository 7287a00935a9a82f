use serde::{Deserialize, Serialize};

use super::made::{Made, Series};
use super::next::{Kind, last_alike};
use super::own::Pair;
use super::tally::tally_courses;
use crate::quantity::{Dimension, Exact};
use crate::records::{Day, SittingKind};

/// The numbers of one learner's pieces by one rubric that figures of change are worked out
/// from, without a record.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Numbers {
    /// How many pieces were marked as a whole by an examiner.
    pub whole: usize,
    /// What they were made for, and whether their time was taken, of which [`Self::pieces`]
    /// are; `None` where too few were made alike.
    pub alike: Option<Kind>,
    /// The pieces made alike, oldest first.
    pub pieces: Vec<PieceNumbers>,
    /// What was counted over all pieces.
    pub tallies: Vec<TallyNumbers>,
    /// The pieces of any rubric that their maker marked too, oldest first.
    pub own: Vec<OwnNumbers>,
}

/// What one piece came to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PieceNumbers {
    /// When it was made.
    pub day: Day,
    /// What it was made for.
    pub sitting: SittingKind,
    /// Marks in per cent of what it could have.
    pub percent: Exact,
}

/// A count or a duration over the pieces.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct TallyNumbers {
    /// Entry id.
    pub id: String,
    /// Count or duration.
    pub dimension: Dimension,
    /// What was counted of each piece for which something was, oldest first, in the usual
    /// unit.
    pub values: Vec<f64>,
}

/// A piece in per cent of what it could have, by its maker and by an examiner.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct OwnNumbers {
    /// By its maker.
    pub own: Exact,
    /// By an examiner.
    pub counts: Exact,
}

impl Numbers {
    /// Those of a series, and of the pieces that their maker marked too.
    ///
    /// *Shape:* `pairs` oldest first; those that one of both did not mark as a whole are left
    /// out.
    pub fn of(series: &Series<'_>, pairs: &[Pair<'_>]) -> Self {
        let counts = |made: &&Made<'_>| made.is_whole() && !made.is_own();
        let whole: Vec<&Made<'_>> = series.pieces.iter().copied().filter(counts).collect();
        let kind = |made: &Made<'_>| (made.sitting, made.is_timed());
        let alike = last_alike(&whole, |made| &made.rubric.version, kind);
        let both_whole = |pair: &&Pair<'_>| pair.own.is_whole() && pair.counts.is_whole();
        let own = pairs.iter().filter(both_whole).map(|pair| OwnNumbers {
            own: pair.own.outcome.percent,
            counts: pair.counts.outcome.percent,
        });
        Self {
            whole: whole.len(),
            alike: alike.as_ref().map(|(kind, _)| *kind),
            pieces: alike
                .into_iter()
                .flat_map(|(_, pieces)| pieces)
                .map(|made| PieceNumbers {
                    day: made.day,
                    sitting: made.sitting,
                    percent: made.outcome.percent,
                })
                .collect(),
            tallies: tallies(series),
            own: own.collect(),
        }
    }
}

fn tallies(series: &Series<'_>) -> Vec<TallyNumbers> {
    let courses = tally_courses(series).into_iter();
    let tallies = courses.map(|tally| TallyNumbers {
        values: tally
            .points
            .iter()
            .flatten()
            .map(|amount| tally.in_unit(*amount))
            .collect(),
        id: tally.id,
        dimension: tally.dimension,
    });
    tallies.collect()
}
