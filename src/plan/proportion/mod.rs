//! How a piece compares with handbook rules of proportion: information, never marks.

mod compare;
mod fit;
mod rules;

pub use rules::{
    AVERAGE_THICKNESS, BASE_NARROW_LONGER, Band, EXPANSION, French, HorseSize, MOST_NAILS,
    NAIL_SPACING, Slope, clip_height, french, fuller_depth, heel_extension, mean_web,
    most_overhang, nail_counts, rearmost_hole,
};

pub(super) use compare::proportions;

/// How a piece stands to a rule.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Stands {
    /// As the rule has it.
    Keeps,
    /// Otherwise.
    Differs,
    /// The rule is about the fit on a foot, and a piece says nothing of that.
    ForTheFit,
}

impl Stands {
    /// In words.
    pub fn word(self) -> &'static str {
        match self {
            Self::Keeps => "as the handbook has it",
            Self::Differs => "otherwise than the handbook",
            Self::ForTheFit => "for the fit on a foot",
        }
    }
}

/// What a rule says, and what the piece asks for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Proportion {
    /// What it is about.
    pub what: &'static str,
    /// The rule, with what it comes to here.
    pub rule: String,
    /// What the piece asks for; empty for what only the fit shows.
    pub asked: String,
    /// How the two stand.
    pub stands: Stands,
    /// Where the rule comes from.
    pub source: &'static str,
}
