//! What is asked about a plan.

/// What a field is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PlanPart {
    /// What the work takes in and gives.
    Making,
    /// A hoof, for the rules that go by one.
    Hoof,
    /// A weighed piece of the bar.
    Sample,
    /// A size that was measured hot.
    Hot,
}

impl PlanPart {
    /// All of them, in order.
    pub const ALL: [Self; 4] = [Self::Making, Self::Hoof, Self::Sample, Self::Hot];

    /// Its heading.
    pub fn title(self) -> &'static str {
        match self {
            Self::Making => "What the work takes and gives",
            Self::Hoof => "A hoof, for the rules that go by one",
            Self::Sample => "A weighed piece of the bar",
            Self::Hot => "A size measured hot",
        }
    }
}

/// A line of text that is asked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct PlanField {
    /// Its name.
    pub id: &'static str,
    /// What it is about.
    pub part: PlanPart,
    /// What it is called.
    pub label: &'static str,
    /// How to fill it in.
    pub hint: &'static str,
}

const fn field(
    part: PlanPart,
    id: &'static str,
    label: &'static str,
    hint: &'static str,
) -> PlanField {
    PlanField {
        id,
        part,
        label,
        hint,
    }
}

/// All of them, by their parts.
pub const PLAN_FIELDS: [PlanField; 14] = [
    field(
        PlanPart::Making,
        "plan-lap",
        "Lap of the weld",
        "Of a bar shoe.",
    ),
    field(
        PlanPart::Making,
        "plan-bump",
        "What bumping the toe takes in",
        "0 where it is not bumped.",
    ),
    field(
        PlanPart::Making,
        "plan-fuller",
        "Share of the fuller’s metal that goes into length",
        "In per cent; the rest makes the web wider.",
    ),
    field(
        PlanPart::Making,
        "plan-scale",
        "Scale lost in each heat",
        "In per cent of the mass.",
    ),
    field(PlanPart::Making, "plan-heats", "Heats", "A whole number."),
    field(
        PlanPart::Hoof,
        "plan-hoof-length",
        "Length of the hoof",
        "Point of the toe to the buttress.",
    ),
    field(
        PlanPart::Hoof,
        "plan-hoof-width",
        "Width of the hoof",
        "Where it is greatest.",
    ),
    field(
        PlanPart::Hoof,
        "plan-wall",
        "Thickness of the wall",
        "Where it was measured.",
    ),
    field(
        PlanPart::Hoof,
        "plan-tape",
        "Soft tape",
        "From buttress round the toe to buttress.",
    ),
    field(
        PlanPart::Hoof,
        "plan-between",
        "Between the heels of the foot",
        "Left empty, the piece’s own.",
    ),
    field(
        PlanPart::Sample,
        "plan-sample-length",
        "Its length",
        "A concave bar is weighed, not worked out.",
    ),
    field(
        PlanPart::Sample,
        "plan-sample-mass",
        "What it weighs",
        "In grams.",
    ),
    field(
        PlanPart::Hot,
        "plan-hot-size",
        "What it measured",
        "Across, while hot.",
    ),
    field(
        PlanPart::Hot,
        "plan-hot-heat",
        "How hot it was",
        "In °C, unless °F is written.",
    ),
];

/// The foot.
pub const PLAN_FOOT: &str = "plan-foot";
/// Which length counts.
pub const PLAN_CHOICE: &str = "plan-choice";
/// Whose earlier pieces count.
pub const PLAN_LEARNER: &str = "plan-learner";
/// Which of them do not.
pub(super) const PLAN_WITHOUT: &str = "plan-without";
/// A length of one's own.
pub const PLAN_OWN: PlanField = field(PlanPart::Making, "plan-own", "The length that you cut", "");
/// How far a shoe on the gauge may be off.
pub const PLAN_GAUGE: &str = "plan-gauge";
/// Earlier pieces, a line each.
pub const PLAN_PAST: PlanField = field(
    PlanPart::Making,
    "plan-past",
    "Other earlier pieces",
    "Of this kind and stock, a line each: cut; finished width; finished length. Three or more, \
     these and those above together, give an own record.",
);
