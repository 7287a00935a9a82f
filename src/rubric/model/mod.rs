//! A checked rubric, as plain data.

mod criterion;
mod kind;
mod uncertainty;

pub use criterion::*;
pub use kind::*;
pub use uncertainty::*;

use crate::piece::{Foot, PieceSpecification};
use crate::quantity::{Dimension, Duration, Exact, Marks, Quantity, Unit};

/// A checked rubric: what is asked for and how it is marked.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Rubric {
    /// Stable name in files.
    pub id: String,
    /// Version, as its owner counts.
    pub version: String,
    /// Title for people.
    pub title: String,
    /// What it is for.
    pub about: String,
    /// Where its tolerances come from.
    pub source: String,
    /// What a bare length means.
    pub unit: Unit,
    /// How many examiners mark before there is a result.
    pub examiners: u32,
    /// The qualification that it serves.
    pub qualification: Option<Qualification>,
    /// The piece.
    pub piece: PieceSpecification,
    /// The shoes of the piece, at least one.
    pub shoes: Vec<Shoe>,
    /// Instruments by id.
    pub instruments: Vec<Instrument>,
    /// Making steps in order.
    pub steps: Vec<Step>,
    /// Planned heats in order.
    pub heats: Vec<PlannedHeats>,
    /// Time rule.
    pub time: Option<TimeRule>,
    /// Readings that are taken and not marked by themselves.
    pub readings: Vec<NamedReading>,
    /// Cause groups.
    pub causes: Vec<CauseGroup>,
    /// Sections in order.
    pub sections: Vec<Section>,
    /// When it is passed.
    pub award: Award,
    /// Cautions beside those that the program always shows.
    pub cautions: Vec<String>,
    /// How the markings of several examiners become one.
    pub moderation: Moderation,
    /// What is asked at a first look, before anything is measured.
    pub first_impression: Option<FirstImpression>,
}

/// A unit of a qualification and its outcomes.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Qualification {
    /// Unit code.
    pub code: String,
    /// Unit title.
    pub title: String,
    /// Outcomes: code and text.
    pub outcomes: Vec<(String, String)>,
}

/// One shoe of the piece.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Shoe {
    /// Prefix of its entry ids.
    pub id: String,
    /// Name for people.
    pub name: String,
    /// The foot, where one is asked for.
    pub foot: Option<Foot>,
}

impl Shoe {
    /// The foot that it is drawn for: near fore where none is asked for.
    pub fn drawn_foot(&self) -> Foot {
        self.foot.unwrap_or(Foot::NearFore)
    }
}

/// A way to measure, with its uncertainty.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Instrument {
    /// Id that readings name.
    pub id: String,
    /// Name for people.
    pub name: String,
    /// How wrong one reading can be.
    pub uncertainty: Uncertainty,
    /// Standard deviation of repeats by one person.
    pub repeatability: Option<Quantity>,
    /// Standard uncertainty of the part that all readings of the instrument share (a zero
    /// error).
    pub shared: Option<Quantity>,
    /// Where these numbers come from.
    pub source: String,
    /// Ids of instruments whose readings it can take as well, and more exactly.
    pub in_place_of: Vec<String>,
}

impl Instrument {
    /// What it measures.
    pub fn dimension(&self) -> Dimension {
        self.uncertainty.amount().dimension
    }
}

/// A step of the making.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Step {
    /// Id that criteria and faults name.
    pub id: String,
    /// Name for people.
    pub name: String,
}

/// Heats planned for a part.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PlannedHeats {
    /// The part or the work.
    pub part: String,
    /// Making step, where one fits.
    pub step: Option<String>,
    /// How many.
    pub count: u32,
    /// A welding heat.
    pub weld: bool,
}

/// What a time exactly on the limit counts as.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum OnTheLimit {
    /// In time.
    Inside,
    /// Over time.
    Over,
}

/// What happens when time is up.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum AfterTheLimit {
    /// Work stops; the piece is marked as it stands.
    MarkAsItStands,
    /// Marks are deducted for each started unit of time.
    Deduct {
        /// The unit.
        each: Duration,
        /// Marks for each one started.
        marks: Marks,
        /// Beyond this the award is stopped.
        hard_stop: Option<Duration>,
    },
}

/// The time rule.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TimeRule {
    /// Time allowed.
    pub limit: Duration,
    /// Time over the limit that is not counted.
    pub grace: Duration,
    /// Exactly on the limit.
    pub on_the_limit: OnTheLimit,
    /// Over it.
    pub after: AfterTheLimit,
}

/// How uncertainty enters a decision (JCGM 106:2012, clause 8).
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum DecisionRule {
    /// The best estimate decides.
    Simple,
    /// A pass only where its probability is at least one minus the risk.
    GuardedAcceptance {
        /// Greatest risk, per cent.
        risk: Exact,
    },
    /// Not yet only where the probability of a pass is at most the risk.
    GuardedRejection {
        /// Greatest risk, per cent.
        risk: Exact,
    },
}

/// When the piece is passed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Award {
    /// The pass mark.
    pub pass: Threshold,
    /// How uncertainty enters.
    pub decision: DecisionRule,
    /// This many warnings stop the award.
    pub warnings_to_stop: u32,
    /// Named grades, the highest first.
    pub grades: Vec<Grade>,
}

/// A named grade.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Grade {
    /// Id.
    pub id: String,
    /// Name for people.
    pub name: String,
    /// From here on.
    pub from: Threshold,
}

/// How a criterion that examiners mark differently is settled.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub enum Settle {
    /// By the examiners, who give a reason.
    #[default]
    Discussion,
    /// By the mean of their marks.
    Mean,
    /// By the lowest of their marks.
    Lower,
}

/// How the markings of several examiners become the agreed one.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Moderation {
    /// What settles a criterion.
    pub settle: Settle,
    /// Where marks of a criterion, or totals, differ by more than this, people settle,
    /// whatever the rule.
    pub discuss_beyond: Option<Threshold>,
    /// Whether a third examiner marks where the awards of two differ.
    pub third_examiner: bool,
}

/// What an examiner is asked at a first look at the finished piece.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum FirstImpression {
    /// A number on a scale of its own. It gives no marks.
    Apart {
        /// The question.
        ask: String,
        /// Every number that may be given, at least two, in order from the least.
        allowed: Vec<Marks>,
    },
    /// The level or number of this judged criterion, which has one entry.
    Counts {
        /// Id of the criterion.
        criterion: String,
    },
}
