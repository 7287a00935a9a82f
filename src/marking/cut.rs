//! What the bar of a piece was cut to, before it was made.

use serde::{Deserialize, Deserializer, Serialize};

use crate::quantity::{Dimension, Length, Quantity, Unit, read_quantity};
use crate::rubric::Rubric;

use super::facts::{Facts, TextOrNumber};
use super::result::Problem;

/// The length that a bar was cut to, as typed; of a pair that of each shoe. It gives no marks.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct CutFact {
    /// What was typed, kept even where it cannot be read.
    pub text: String,
    /// What a bare number meant when it was typed; `None` is the rubric's unit.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub unit: Option<Unit>,
}

/// Nanometres in a millimetre.
const MM: i64 = 1_000_000;
/// The shortest and the longest bar that is taken for one of a shoe: from a foal's to more than
/// a draught's; common practice, no source.
const TAKEN: (Length, Length) = (Length::from_base(50 * MM), Length::from_base(3_000 * MM));

impl CutFact {
    /// A length as typed while a bare number meant this unit.
    pub fn of(text: impl Into<String>, unit: Unit) -> Self {
        Self {
            text: text.into(),
            unit: Some(unit),
        }
    }

    /// The unit that a bare number in it means, and that it is told in.
    pub fn meant(&self, rubric: Unit) -> Unit {
        let own = self.unit.unwrap_or(rubric);
        own.or_usual(Dimension::Length)
    }

    /// The length, to the nearest nanometre. `rubric` is what a bare number means by the rubric.
    ///
    /// *Errors:* what is wrong with the text, and what would do.
    pub fn read(&self, rubric: Unit) -> Result<Length, String> {
        let unit = self.meant(rubric);
        let read = read_quantity(&self.text, Dimension::Length, unit);
        let read = read.map_err(|fault| fault.to_string())?;
        let cut = Length::nearest(read).filter(|cut| (TAKEN.0..=TAKEN.1).contains(cut));
        cut.ok_or_else(|| {
            let say = |quantity: Quantity| quantity.print(unit);
            format!(
                "a bar for a shoe is cut to {} to {}, and `{}` is {}; write the unit beside the \
                 number where it is another",
                say(TAKEN.0.quantity()),
                say(TAKEN.1.quantity()),
                self.text.trim(),
                say(read)
            )
        })
    }
}

/// What stands against the cut length in `facts`.
pub(super) fn wrong_cut(rubric: &Rubric, facts: &Facts) -> Option<Problem> {
    let why = facts.cut.as_ref()?.read(rubric.unit).err()?;
    Some(Problem {
        id: String::new(),
        message: format!("length that was cut: {why}"),
    })
}

impl<'de> Deserialize<'de> for CutFact {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        #[derive(Deserialize)]
        #[serde(deny_unknown_fields)]
        struct Full {
            text: String,
            unit: Option<Unit>,
        }
        #[derive(Deserialize)]
        #[serde(untagged)]
        enum Form {
            Short(TextOrNumber),
            Full(Full),
        }
        Ok(match Form::deserialize(deserializer)? {
            Form::Short(text) => Self {
                text: text.into_text(),
                unit: None,
            },
            Form::Full(Full { text, unit }) => Self { text, unit },
        })
    }
}
