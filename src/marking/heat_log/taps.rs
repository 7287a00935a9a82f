use serde::{Deserialize, Deserializer, Serialize, de};

use crate::quantity::Moment;

use super::plan::{Afterwards, PlannedPart};
use super::taken_over::TakenOver;

/// What was tapped while a piece was made, in order of tapping, with the plan that it was made
/// to.
///
/// *Personal text:* notes and the reasons of pauses and stops stand under the seal as facts, as
/// the reasons of [`Facts::pauses`](crate::marking::Facts::pauses) do, and are not erased
/// with comments; no names belong there.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct HeatLog {
    /// Every tap that was not taken back.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub taps: Vec<Tap>,
    /// The plan as it was changed for this piece; `None` is the rubric's.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub plan: Option<Vec<PlannedPart>>,
    /// What was entered when the piece was done.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub afterwards: Option<Afterwards>,
    /// Where its first taps come from, if from another log.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub taken_over: Option<TakenOver>,
}

/// One tap.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Tap {
    /// What the device's clock showed.
    pub at: Moment,
    /// What the page's own clock showed, where the page has one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub run: Option<Run>,
    /// What it says.
    pub what: What,
}

/// What the page's own clock showed, which no one can set.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Run {
    /// Which page's life: a number drawn at random when a page opens.
    pub page: u32,
    /// Milliseconds of that life, at most [`Run::MOST_MS`].
    #[serde(deserialize_with = "milliseconds")]
    pub ms: u64,
}

impl Run {
    /// The longest life: canonical JSON holds no greater whole number exactly (RFC 8785, 3.2.2.3).
    pub const MOST_MS: u64 = 9_007_199_254_740_991;
}

/// What a tap says.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(tag = "tap", rename_all = "kebab-case", deny_unknown_fields)]
pub enum What {
    /// The clock starts; a common start puts one on every ticket.
    #[serde(deserialize_with = "alone")]
    Start,
    /// Into the fire.
    #[serde(deserialize_with = "alone")]
    Fire,
    /// Out to the anvil.
    Anvil {
        /// At welding heat.
        #[serde(default, skip_serializing_if = "is_false")]
        weld: bool,
    },
    /// A heat counted in one tap, without its times.
    Heat {
        /// A welding heat.
        #[serde(default, skip_serializing_if = "is_false")]
        weld: bool,
    },
    /// From now on this making step of the rubric.
    Step {
        /// Its id.
        step: String,
    },
    /// A fault was seen.
    Fault {
        /// Which entry it belongs to.
        entry: String,
        /// Its id there.
        fault: String,
    },
    /// A note.
    Note {
        /// As typed.
        text: String,
    },
    /// Nobody watched for a while: heats may be missing, which are not counted.
    #[serde(deserialize_with = "alone")]
    NotWatched,
    /// The clock stands.
    Pause {
        /// Why.
        reason: String,
    },
    /// The clock goes on.
    #[serde(deserialize_with = "alone")]
    Resume,
    /// The examiner was called to look.
    #[serde(deserialize_with = "alone")]
    Called,
    /// Handed in.
    #[serde(deserialize_with = "alone")]
    Finished,
    /// It ended without being finished.
    Stopped {
        /// In which way.
        how: Stop,
        /// Why; may be empty.
        reason: String,
    },
}

/// How making ended where it was not finished.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Stop {
    /// Not done when the time was up.
    UnfinishedAtTime,
    /// Given up by the maker.
    Withdrawn,
    /// Stopped by an examiner.
    StoppedForSafety,
    /// Broken, or begun again on fresh stock.
    BrokenOrRestarted,
}

impl Stop {
    /// Every one, in the order in which they are offered.
    pub const ALL: [Self; 4] = [
        Self::UnfinishedAtTime,
        Self::Withdrawn,
        Self::StoppedForSafety,
        Self::BrokenOrRestarted,
    ];
}

impl HeatLog {
    /// Whether nothing was planned, tapped or entered.
    pub fn is_empty(&self) -> bool {
        *self == Self::default()
    }
}

/// Reads what has no fields; serde's own reader would let unknown ones pass.
fn alone<'de, D: Deserializer<'de>>(from: D) -> Result<(), D::Error> {
    #[derive(Deserialize)]
    #[serde(deny_unknown_fields)]
    struct Nothing {}
    Nothing::deserialize(from).map(|Nothing {}| ())
}

fn milliseconds<'de, D: Deserializer<'de>>(from: D) -> Result<u64, D::Error> {
    let ms = u64::deserialize(from)?;
    let fits = (ms <= Run::MOST_MS).then_some(ms);
    fits.ok_or_else(|| de::Error::custom(format!("{ms} milliseconds are more than any page lives")))
}

#[expect(
    clippy::trivially_copy_pass_by_ref,
    reason = "serde asks for a reference"
)]
pub(super) fn is_false(value: &bool) -> bool {
    !value
}
