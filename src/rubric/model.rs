use crate::piece::{Foot, PieceSpecification};
use crate::quantity::{Dimension, Duration, Exact, Marks, Quantity, Unit};

use super::expression::Expression;

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
    /// Part that all readings of the instrument share (a zero error).
    pub shared: Option<Quantity>,
    /// Where these numbers come from.
    pub source: String,
}

/// An instrument's uncertainty as it is stated.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Uncertainty {
    /// Half-width `a` of a rectangular distribution; standard uncertainty
    /// `a / sqrt 3` (JCGM 100:2008, 4.3.7).
    HalfWidth(Quantity),
    /// Standard uncertainty.
    Standard(Quantity),
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

/// Which shoes an entry stands for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum AppliesTo {
    /// One entry a shoe.
    EachShoe,
    /// One entry for the whole piece.
    Piece,
    /// One entry, for the shoe with this id.
    Shoe(String),
}

/// When a criterion is looked at.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum When {
    /// While the piece is made.
    During,
    /// When the examiner is called.
    WhenCalled,
    /// When it is finished and cold.
    After,
}

impl When {
    /// Words of files and pages.
    pub const WORDS: &'static [(&'static str, Self)] = &[
        ("during", Self::During),
        ("when called", Self::WhenCalled),
        ("after", Self::After),
    ];
}

/// From where a criterion is seen, in the order in which a shoe is turned.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum SeenFrom {
    /// While it is made.
    Anvil,
    /// The side that meets the foot.
    FootSide,
    /// The side that meets the ground.
    GroundSide,
    /// From the edge.
    Edge,
    /// On a flat plate.
    FlatPlate,
    /// With a nail in the hole.
    NailInHole,
    /// After the weld was broken.
    AfterBreakTest,
}

impl SeenFrom {
    /// Words of files and pages, in order.
    pub const WORDS: &'static [(&'static str, Self)] = &[
        ("at the anvil", Self::Anvil),
        ("foot side", Self::FootSide),
        ("ground side", Self::GroundSide),
        ("edge", Self::Edge),
        ("flat plate", Self::FlatPlate),
        ("nail in hole", Self::NailInHole),
        ("after break test", Self::AfterBreakTest),
    ];

    /// The word for this value.
    pub fn word(self) -> &'static str {
        Self::WORDS
            .iter()
            .find(|(_, value)| *value == self)
            .map_or("", |(word, _)| word)
    }
}

/// A reading that is taken and named, so that criteria can use it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NamedReading {
    /// Id.
    pub id: String,
    /// Name for people.
    pub name: String,
    /// How it is taken.
    pub note: String,
    /// What is measured.
    pub dimension: Dimension,
    /// Usual instrument.
    pub instrument: Option<String>,
    /// For which shoes.
    pub applies_to: AppliesTo,
    /// From where it is seen.
    pub seen_from: SeenFrom,
    /// When it is looked at.
    pub when: When,
}

/// One error may cost only so much over several criteria.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CauseGroup {
    /// Id that criteria name.
    pub id: String,
    /// Name for people.
    pub name: String,
    /// Most marks that the group loses together.
    pub most: Marks,
}

/// A section of the rubric.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Section {
    /// Id.
    pub id: String,
    /// Name for people.
    pub name: String,
    /// Marks that the whole section is scaled to; `None` leaves the sum.
    pub weight: Option<Marks>,
    /// Least that the section must reach for a pass.
    pub minimum: Option<Threshold>,
    /// Most marks that the section can give.
    pub cap: Option<Marks>,
    /// Criteria in order.
    pub criteria: Vec<Criterion>,
}

/// A number of marks or a share of what can be had.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Threshold {
    /// So many marks.
    Marks(Marks),
    /// Per cent of what can be had.
    Percent(Exact),
}

/// What "not applicable" does to the total.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NotApplicable {
    /// It cannot be said.
    Refused,
    /// The criterion's marks leave the total that can be had.
    Rescale,
    /// The total that can be had stays; no marks.
    Keep,
}

/// What happens when a fault is seen or a band or level is met.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Effect {
    /// Written down.
    Noted,
    /// A warning; the rubric says how many stop.
    Warn,
    /// Stops the award.
    Stop,
}

/// One criterion.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Criterion {
    /// Id.
    pub id: String,
    /// Name for people.
    pub name: String,
    /// How it is looked at or measured.
    pub note: String,
    /// Its marks count this many times.
    pub weight: Exact,
    /// How marks are found.
    pub kind: Kind,
    /// Cause group.
    pub cause: Option<String>,
    /// Making step that it tells about.
    pub step: Option<String>,
    /// From where it is seen.
    pub seen_from: SeenFrom,
    /// When it is looked at.
    pub when: When,
    /// For which shoes.
    pub applies_to: AppliesTo,
    /// What "not applicable" does.
    pub not_applicable: NotApplicable,
    /// Marks below this stop the award.
    pub stops_below: Option<Marks>,
    /// Faults that are often seen here.
    pub faults: Vec<Fault>,
    /// Outcome codes that it gives evidence for.
    pub outcomes: Vec<String>,
    /// Where its numbers come from, if not from the rubric's source.
    pub source: Option<String>,
}

/// A typical fault with what to do about it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Fault {
    /// Id.
    pub id: String,
    /// Name for people.
    pub name: String,
    /// Usual cause.
    pub cause: String,
    /// What to practise.
    pub remedy: String,
    /// Making step that causes it.
    pub step: Option<String>,
    /// What it does beside costing marks.
    pub effect: Effect,
    /// Marks that each one costs.
    pub deduct: Marks,
    /// Most marks that this fault costs together.
    pub most: Option<Marks>,
}

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
