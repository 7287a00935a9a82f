//! What a reading says of its own uncertainty.

use serde::{Deserialize, Serialize};
use thiserror::Error;

use crate::quantity::{Dimension, Quantity, ReadError, read_quantity};
use crate::rubric::{Instrument, Uncertainty};

/// How sure a reading is by itself, where what took it says so for each reading anew.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Stated {
    /// Standard uncertainty of its own part, as written: `0.12 mm`.
    pub own: String,
    /// What it is off by with one standard uncertainty of what all readings by that
    /// instrument share, with its sign: `-0.05 mm`; none is nothing.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub shared: Option<String>,
}

/// Why what a reading states cannot be used.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum StatedFault {
    /// A text that is no quantity of what is measured.
    #[error("the reading states its uncertainty as `{text}`: {fault}")]
    Unread {
        /// As written.
        text: String,
        /// What is wrong with it.
        fault: ReadError,
    },
    /// An own part of nothing, or less.
    #[error("the reading states its uncertainty as `{0}`; write how much it is, above zero")]
    NotAboveZero(String),
}

/// A reading's own figures, read.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct StatedFigures {
    own: Quantity,
    /// With its sign; `None` is nothing.
    shared: Option<Quantity>,
}

impl Stated {
    /// The figures of a reading of this dimension.
    ///
    /// *Errors:* [`StatedFault`].
    pub(super) fn read(&self, dimension: Dimension) -> Result<StatedFigures, StatedFault> {
        let own = quantity(&self.own, dimension)?;
        if own.base.is_negative() || own.base.is_zero() {
            return Err(StatedFault::NotAboveZero(self.own.trim().to_owned()));
        }
        let shared = self.shared.as_deref();
        let shared = shared.map(|text| quantity(text, dimension)).transpose()?;
        Ok(StatedFigures {
            own,
            shared: shared.filter(|shared| !shared.base.is_zero()),
        })
    }
}

impl StatedFigures {
    /// `instrument` with these in place of its own figures: a reading that says how sure it is
    /// has its scatter in that.
    pub(super) fn of(self, instrument: Instrument) -> Instrument {
        Instrument {
            uncertainty: Uncertainty::Standard(self.own),
            repeatability: None,
            shared: self.shared,
            ..instrument
        }
    }
}

fn quantity(text: &str, dimension: Dimension) -> Result<Quantity, StatedFault> {
    read_quantity(text, dimension, dimension.usual_unit()).map_err(|fault| StatedFault::Unread {
        text: text.trim().to_owned(),
        fault,
    })
}
