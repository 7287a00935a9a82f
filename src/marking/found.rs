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
    /// What several readings come to.
    pub value: String,
    /// What `why` says beyond the readings and what they come to.
    pub because: String,
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
        let why = why.into();
        Self {
            marks,
            because: why.clone(),
            why,
            value: String::new(),
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
        let why = why.into();
        Self {
            marks: Some(marks),
            because: why.clone(),
            why,
            value: String::new(),
            effect,
            measured,
            problem,
        }
    }

    /// The same with what `why` says taken apart.
    pub fn apart(self, value: impl Into<String>, because: impl Into<String>) -> Self {
        Self {
            value: value.into(),
            because: because.into(),
            ..self
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
