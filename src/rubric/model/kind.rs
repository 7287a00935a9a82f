//! The six kinds of criterion, with their bands, levels and allowances.

use crate::piece::Feature;
use crate::quantity::{Dimension, Exact, Marks, Quantity};

use crate::rubric::expression::Expression;

use super::{Effect, OnTheLimit};

/// The six kinds of criterion.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Kind {
    /// A reading against a tolerance.
    Toleranced(Toleranced),
    /// Left against right.
    Paired(Paired),
    /// Uniformity of a series.
    Spread(Spread),
    /// A count or a duration.
    Tally(Tally),
    /// A level or a number given by eye.
    Judged(Judged),
    /// Nothing but faults.
    Faults(FaultList),
}

/// Bands of a measured value.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Scale {
    /// What is measured.
    pub dimension: Dimension,
    /// What is asked for; `None` where the limits stand by themselves.
    pub target: Option<Expression>,
    /// Bands, the best first; the first that holds the value gives the marks.
    pub bands: Vec<Band>,
    /// Marks outside every band.
    pub beyond: Marks,
    /// What being outside every band does.
    pub beyond_effect: Effect,
    /// Outside these limits the award is stopped.
    pub stops_outside: Option<Limits>,
}

/// One band.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Band {
    /// Name that a gauge verdict uses.
    pub name: Option<String>,
    /// Its limits, both included.
    pub limits: Limits,
    /// Marks inside it.
    pub marks: Marks,
    /// What being inside it does.
    pub effect: Effect,
}

/// Limits of a band.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Limits {
    /// At most so far under and over the target.
    Around {
        /// Under the target.
        under: Limit,
        /// Over the target.
        over: Limit,
    },
    /// At most this.
    AtMost(Limit),
    /// At least this.
    AtLeast(Limit),
    /// From the first to the second.
    Between(Limit, Limit),
}

/// One limit.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Limit {
    /// An amount or an expression.
    Amount(Expression),
    /// Per cent of the target, or of the mean where there is none.
    Percent(Exact),
}

/// A reading against a tolerance.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Toleranced {
    /// Id of the reading; the criterion's own where no other is named.
    pub reading: String,
    /// Usual instrument.
    pub instrument: Option<String>,
    /// Its readings are taken at several places and may differ; their mean counts.
    pub several_places: bool,
    /// Measure of a photo that fills the reading.
    pub photo: Option<Feature>,
    /// Bands of the reading's mean.
    pub scale: Scale,
}

/// Left against right: bands of the difference left minus right.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Paired {
    /// Reading on the left.
    pub left: String,
    /// Reading on the right.
    pub right: String,
    /// Usual instrument.
    pub instrument: Option<String>,
    /// Measures of a photo that fill the readings, left and right.
    pub photo: Option<[Feature; 2]>,
    /// Bands of the difference; the target is the intended difference.
    pub scale: Scale,
}

/// What is taken from a series.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SpreadMeasure {
    /// Largest minus smallest.
    Range,
    /// Largest distance from the mean.
    FarthestFromMean,
}

/// Uniformity of a series.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Spread {
    /// Id of the series.
    pub reading: String,
    /// How many members are asked for.
    pub count: u32,
    /// What is taken.
    pub measure: SpreadMeasure,
    /// Usual instrument.
    pub instrument: Option<String>,
    /// Measure of a photo that fills the series.
    pub photo: Option<Feature>,
    /// Bands of it.
    pub scale: Scale,
}

/// A count or a duration.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Tally {
    /// Count or duration.
    pub dimension: Dimension,
    /// Marks within the allowance.
    pub marks: Marks,
    /// What costs nothing.
    pub allowance: Quantity,
    /// Exactly on the allowance.
    pub on_the_limit: OnTheLimit,
    /// What happens beyond it.
    pub beyond: BeyondAllowance,
    /// More than this stops the award.
    pub hard_limit: Option<Quantity>,
    /// Whether the rubric's time rule made this: pauses and extra time count.
    pub is_time: bool,
    /// What of a heat log it counts, where it counts any of it.
    pub counts: Option<TallyOf>,
}

/// What of a heat log a tally counts.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TallyOf {
    /// Heats of every kind.
    Heats,
    /// Welding heats.
    WeldHeats,
    /// The time of making.
    Time,
}

impl TallyOf {
    /// What it measures.
    pub fn dimension(self) -> Dimension {
        match self {
            Self::Heats | Self::WeldHeats => Dimension::Count,
            Self::Time => Dimension::Duration,
        }
    }
}

/// What a tally costs beyond its allowance.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum BeyondAllowance {
    /// All its marks; the piece is marked as it stood.
    AllMarks,
    /// Marks for each started unit.
    Deduct {
        /// The unit.
        each: Quantity,
        /// Marks for each one started.
        marks: Marks,
    },
}

/// A level or a number given by eye.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Judged {
    /// Named levels, the best first.
    Levels(Vec<Level>),
    /// Numbers, with words at some.
    Numbers {
        /// Every number that may be given, in order from the least.
        allowed: Vec<Marks>,
        /// Words at some of them.
        descriptors: Vec<(Marks, String)>,
    },
}

/// A level with its descriptor.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Level {
    /// Id.
    pub id: String,
    /// Name for people.
    pub name: String,
    /// What is seen at this level.
    pub text: String,
    /// Marks.
    pub marks: Marks,
    /// What meeting it does.
    pub effect: Effect,
    /// An example in words.
    pub example: Option<String>,
    /// SHA-256 of an example photo.
    pub photo: Option<String>,
}

/// A list of faults that is marked by itself.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FaultList {
    /// Marks where none is seen.
    pub marks: Marks,
    /// Marks never go below this; may be negative.
    pub least: Marks,
}
