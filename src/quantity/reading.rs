use serde::{Deserialize, Serialize};

use super::Quantity;
use super::read::{ReadError, read_quantity, trailing_unit};
use super::unit::{Dimension, Unit};

/// What a gauge says where no number is read.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Verdict {
    /// Below the named limit.
    Under,
    /// Inside it, the limit itself included.
    Within,
    /// Above it.
    Over,
}

impl Verdict {
    /// The word as people write it.
    pub fn word(self) -> &'static str {
        match self {
            Self::Under => "under",
            Self::Within => "within",
            Self::Over => "over",
        }
    }
}

/// One reading, in one of the three forms that people take.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Reading {
    /// `10.2 mm`.
    Value(Quantity),
    /// `0.5..0.6`: the last feeler that goes and the first that does not. The
    /// quantity is at least `from` and less than `to`.
    Interval {
        /// Lower end, included.
        from: Quantity,
        /// Upper end, excluded.
        to: Quantity,
    },
    /// `within`, `over fair`: a gauge against a limit that the rubric names.
    Verdict {
        /// Under, within or over.
        verdict: Verdict,
        /// The limit's name; `None` is the narrowest.
        limit: Option<String>,
    },
}

/// Reads one reading of `dimension`; a bare number takes `bare_unit`.
///
/// *Errors:* [`ReadError`], with the text, the rule and what to write instead.
pub fn read_reading(
    text: &str,
    dimension: Dimension,
    bare_unit: Unit,
) -> Result<Reading, ReadError> {
    let text = text.trim();
    if let Some(reading) = read_verdict(text) {
        return Ok(reading);
    }
    let Some((from, to)) = text.split_once("..").or_else(|| text.split_once('…')) else {
        return read_quantity(text, dimension, bare_unit).map(Reading::Value);
    };
    let to_value = read_quantity(to, dimension, bare_unit)?;
    let from_unit = trailing_unit(to).filter(|unit| unit.dimension() == dimension);
    let from_value = read_quantity(from, dimension, from_unit.unwrap_or(bare_unit))?;
    if from_value.base >= to_value.base {
        return Err(ReadError::Backwards {
            text: text.to_owned(),
        });
    }
    Ok(Reading::Interval {
        from: from_value,
        to: to_value,
    })
}

fn read_verdict(text: &str) -> Option<Reading> {
    let (word, limit) = match text.split_once(char::is_whitespace) {
        Some((word, limit)) => (word, Some(limit.trim().to_owned())),
        None => (text, None),
    };
    let verdict = match word.to_lowercase().as_str() {
        "under" => Verdict::Under,
        "within" => Verdict::Within,
        "over" => Verdict::Over,
        _ => return None,
    };
    Some(Reading::Verdict { verdict, limit })
}
