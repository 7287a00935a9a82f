use crate::quantity::Marks;
use crate::rubric::Effect;

use super::result::Measured;

/// What one criterion's own rule says, before faults, weight and cause groups.
#[derive(Debug, Clone)]
pub(super) struct Found {
    /// Marks without the weight; `None` while something is missing.
    pub marks: Option<Marks>,
    /// Why, in words, without the marks.
    pub why: String,
    /// What meeting this band or level does.
    pub effect: Effect,
    /// Value and bands, where it is measured.
    pub measured: Option<Measured>,
    /// What was typed and cannot be used.
    pub problem: Option<String>,
}

impl Found {
    pub fn missing(why: impl Into<String>) -> Self {
        let (marks, measured, problem) = (None, None, None);
        Self {
            marks,
            why: why.into(),
            effect: Effect::Noted,
            measured,
            problem,
        }
    }

    pub fn problem(message: impl Into<String>) -> Self {
        let message = message.into();
        Self {
            problem: Some(message.clone()),
            ..Self::missing(message)
        }
    }

    pub fn valued(marks: Marks, why: impl Into<String>, effect: Effect) -> Self {
        let (measured, problem) = (None, None);
        Self {
            marks: Some(marks),
            why: why.into(),
            effect,
            measured,
            problem,
        }
    }

    pub fn measured(self, measured: Measured) -> Self {
        Self {
            measured: Some(measured),
            ..self
        }
    }
}

/// What overflow says; it takes numbers that no shoe has.
pub(super) const TOO_LARGE: &str = "these numbers are too large to work with; mend the reading";
