//! Sections, criteria and their faults.

use crate::piece::{Feature, Place};
use crate::quantity::{Dimension, Exact, Marks};

use super::Kind;

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
    /// Its readings are taken at several places and may differ; their mean counts.
    pub several_places: bool,
    /// Measure of a photo that fills it.
    pub photo: Option<Feature>,
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
    /// Part of the shoe that it is about; `None` for the whole, and for the making.
    pub place: Option<Place>,
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
