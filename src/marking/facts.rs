use std::collections::BTreeMap;

use serde::{Deserialize, Deserializer, Serialize, de};

use crate::quantity::{Dimension, Marks, ReadError, Unit};
use crate::rubric::ShapeWord;

use super::cut::CutFact;
use super::heat_log::HeatLog;
use super::outline::{OutlineFact, outlines};
use super::stated::Stated;

/// What was seen and measured on one piece, as typed: the only input of
/// [`mark`](super::mark) beside the rubric. Results are never stored here.
///
/// *Keys* are entry ids: a criterion's or reading's id, with the shoe before it
/// (`near.width`) where a piece has several shoes. *Serde:* every field may be
/// missing; readings, levels and tallies may be plain texts or numbers.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct Facts {
    /// Repeats of one reading, or the members of a series.
    pub readings: BTreeMap<String, Vec<ReadingFact>>,
    /// Level id, or a number on a numeric scale.
    #[serde(deserialize_with = "texts")]
    pub levels: BTreeMap<String, String>,
    /// A count or a duration.
    #[serde(deserialize_with = "texts")]
    pub tallies: BTreeMap<String, String>,
    /// Fault ids noted; an id twice is a fault seen twice, an empty list is
    /// "looked for, none found".
    pub faults: BTreeMap<String, Vec<String>>,
    /// States other than valued or missing.
    pub states: BTreeMap<String, StateFact>,
    /// Times when the clock stood.
    pub pauses: Vec<Pause>,
    /// Time added by arrangement.
    pub extra_time: Option<Pause>,
    /// Stops lifted by a chief examiner.
    pub lifts: Vec<Lift>,
    /// Instruments whose figures stand here and not in the rubric, by id: those that the
    /// examiner has. One of an id that the rubric has takes its place.
    #[serde(skip_serializing_if = "BTreeMap::is_empty")]
    pub instruments: BTreeMap<String, InstrumentFact>,
    /// What was thought at a first look, before anything was measured: a number as typed,
    /// which gives no marks. Where the rubric counts it as a criterion, this is the level
    /// that stands in `levels` too, and stands here only if it was given before all else.
    #[serde(
        deserialize_with = "maybe_text",
        skip_serializing_if = "Option::is_none"
    )]
    pub impression: Option<String>,
    /// Outlines as they were measured in photos, one of each shoe at most. They give no marks.
    #[serde(deserialize_with = "outlines", skip_serializing_if = "Vec::is_empty")]
    pub outlines: Vec<OutlineFact>,
    /// What was tapped while it was made, and what follows for its tallies where none is typed.
    #[serde(skip_serializing_if = "HeatLog::is_empty")]
    pub heat_log: HeatLog,
    /// What the bar was cut to; it gives no marks.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub cut: Option<CutFact>,
}

impl Facts {
    /// Whether nothing was seen or measured yet; instruments that lie ready are nothing.
    pub fn is_blank(&self) -> bool {
        let facts = Self {
            instruments: BTreeMap::new(),
            ..self.clone()
        };
        facts == Self::default()
    }
}

/// An instrument as its owner describes it, each figure as typed with its unit.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct InstrumentFact {
    /// Name for people.
    pub name: String,
    /// What it measures.
    pub measures: Dimension,
    /// How far one reading can be off at most; this or the next.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub half_width: Option<String>,
    /// How errors are spread between its ends; all alike where it is not said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub shape: Option<ShapeWord>,
    /// Of a trapezoid, the share of its width that is level, from 0 to 1.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub level_share: Option<String>,
    /// The same as a standard uncertainty.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub standard_uncertainty: Option<String>,
    /// Standard deviation of repeats by one person.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub repeatability: Option<String>,
    /// Standard uncertainty of the part that all its readings share.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub shared: Option<String>,
    /// Where the figures come from.
    pub source: String,
}

/// One reading as typed.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct ReadingFact {
    /// What was typed, kept even where it cannot be read.
    pub text: String,
    /// What a bare number meant when it was typed; `None` is the rubric's unit.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub unit: Option<Unit>,
    /// Id of the instrument, where it is not the criterion's usual one.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub instrument: Option<String>,
    /// Taken on hot steel: kept, never used for marks.
    #[serde(skip_serializing_if = "is_false")]
    pub hot: bool,
    /// How sure it is by itself, where what took it says so for each reading anew.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub stated: Option<Stated>,
}

impl ReadingFact {
    /// A reading with nothing but its text.
    pub fn of(text: impl Into<String>) -> Self {
        Self {
            text: text.into(),
            unit: None,
            instrument: None,
            hot: false,
            stated: None,
        }
    }
}

impl ReadingFact {
    /// Whether anything is typed.
    pub fn is_written(&self) -> bool {
        !self.text.trim().is_empty()
    }

    /// The unit that a bare number in it means: its own where it is one of this dimension,
    /// or else the sheet's.
    pub fn meant(&self, dimension: Dimension, sheet: Unit) -> Unit {
        let own = self.unit.filter(|unit| unit.dimension() == dimension);
        own.unwrap_or(sheet).or_usual(dimension)
    }

    /// Whether it is used for marks: written, and taken cold.
    pub fn counts(&self) -> bool {
        self.is_written() && !self.hot
    }
}

impl Facts {
    /// Who lifted the stop of an entry and why, where somebody did and both are said.
    pub fn lift_of(&self, entry: &str) -> Option<&Lift> {
        let said = |text: &str| !text.trim().is_empty();
        let lift = self.lifts.iter().find(|lift| lift.entry == entry);
        lift.filter(|lift| said(&lift.by) && said(&lift.reason))
    }
}

/// A criterion's state where it is not simply valued or missing.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum State {
    /// The part was not made: no marks, and said so.
    NotMade,
    /// It cannot be measured: the examiner decides, with a reason.
    CannotMeasure,
    /// It does not apply here: only where the rubric allows it.
    NotApplicable,
}

impl State {
    /// Every state, in the order in which they are offered.
    pub const ALL: [Self; 3] = [Self::NotMade, Self::CannotMeasure, Self::NotApplicable];

    /// The state as people write it.
    pub fn word(self) -> &'static str {
        match self {
            Self::NotMade => "not made",
            Self::CannotMeasure => "can't be measured",
            Self::NotApplicable => "not applicable",
        }
    }

    /// Reads the word or its file form (`not-made`).
    pub fn from_word(text: &str) -> Option<Self> {
        match text
            .trim()
            .to_lowercase()
            .replace(['-', '_', '’'], " ")
            .as_str()
        {
            "not made" => Some(Self::NotMade),
            "can't be measured" | "can t be measured" | "cannot be measured" | "cannot measure" => {
                Some(Self::CannotMeasure)
            }
            "not applicable" => Some(Self::NotApplicable),
            _ => None,
        }
    }
}

/// A state with what the examiner says about it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct StateFact {
    /// Which state.
    pub state: State,
    /// Why; asked for where it cannot be measured.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub reason: Option<String>,
    /// Marks by the examiner's decision, where it cannot be measured; as typed.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub marks: Option<String>,
}

impl StateFact {
    /// Marks that the examiner decides on, before the weight; `None` while none are
    /// written. An error says what is wrong with the text, and what would do.
    pub fn decided(&self, most: Marks) -> Result<Option<Marks>, String> {
        let text = self.marks.as_deref().unwrap_or_default().trim();
        if text.is_empty() {
            return Ok(None);
        }
        let marks: Marks = text.parse().map_err(|fault: ReadError| fault.to_string())?;
        if marks < Marks::ZERO || marks > most {
            return Err(format!("{marks} marks cannot be given; use 0 to {most}"));
        }
        Ok(Some(marks))
    }
}

/// A stretch of time with its reason.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Pause {
    /// How long, as typed: `4 min`.
    pub duration: String,
    /// Why.
    pub reason: String,
}

/// A stop set aside by the only person who may.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Lift {
    /// The entry that stopped.
    pub entry: String,
    /// The chief examiner's name.
    pub by: String,
    /// The reason, printed on the sheet.
    pub reason: String,
}

#[expect(
    clippy::trivially_copy_pass_by_ref,
    reason = "serde asks for a reference"
)]
fn is_false(value: &bool) -> bool {
    !value
}

/// A text, or a number taken as its text.
#[derive(Deserialize)]
#[serde(untagged)]
pub(super) enum TextOrNumber {
    Text(String),
    Number(serde_json::Number),
}

impl TextOrNumber {
    pub(super) fn into_text(self) -> String {
        match self {
            Self::Text(text) => text,
            Self::Number(number) => number.to_string(),
        }
    }
}

fn texts<'de, D: Deserializer<'de>>(from: D) -> Result<BTreeMap<String, String>, D::Error> {
    let map = BTreeMap::<String, TextOrNumber>::deserialize(from)?;
    Ok(map
        .into_iter()
        .map(|(id, value)| (id, value.into_text()))
        .collect())
}

fn maybe_text<'de, D: Deserializer<'de>>(from: D) -> Result<Option<String>, D::Error> {
    let value = Option::<TextOrNumber>::deserialize(from)?;
    Ok(value.map(TextOrNumber::into_text))
}

impl<'de> Deserialize<'de> for ReadingFact {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        #[derive(Deserialize)]
        #[serde(deny_unknown_fields)]
        struct Full {
            text: String,
            unit: Option<Unit>,
            instrument: Option<String>,
            #[serde(default)]
            hot: bool,
            stated: Option<Stated>,
        }
        #[derive(Deserialize)]
        #[serde(untagged)]
        enum Form {
            Short(TextOrNumber),
            Full(Full),
        }
        Ok(match Form::deserialize(deserializer)? {
            Form::Short(text) => Self::of(text.into_text()),
            Form::Full(Full {
                text,
                unit,
                instrument,
                hot,
                stated,
            }) => Self {
                text,
                unit,
                instrument,
                hot,
                stated,
            },
        })
    }
}

impl<'de> Deserialize<'de> for StateFact {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        #[derive(Deserialize)]
        #[serde(deny_unknown_fields)]
        struct Full {
            state: String,
            reason: Option<String>,
            marks: Option<TextOrNumber>,
        }
        #[derive(Deserialize)]
        #[serde(untagged)]
        enum Form {
            Short(String),
            Full(Full),
        }
        let (word, reason, marks) = match Form::deserialize(deserializer)? {
            Form::Short(word) => (word, None, None),
            Form::Full(full) => (full.state, full.reason, full.marks),
        };
        let state = State::from_word(&word).ok_or_else(|| {
            de::Error::custom(format!(
                "`{word}` is not a state; use not made, can't be measured or not applicable"
            ))
        })?;
        Ok(Self {
            state,
            reason,
            marks: marks.map(TextOrNumber::into_text),
        })
    }
}
