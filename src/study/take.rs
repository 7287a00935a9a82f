//! Taking the result of a study over as an instrument's figure.

use super::worked::Worked;
use crate::marking::InstrumentFact;
use crate::quantity::{counted, shortened, two_digit_places};
use crate::records::StudyFacts;

/// How the words of a source begin that a study gave.
const BEGINS: &str = "repeatability: study of ";

/// What a study gives to its instrument.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Taken {
    /// The repeatability with its unit.
    pub repeatability: String,
    /// What the source says of it.
    pub source: String,
}

impl Worked {
    /// The repeatability as an instrument states it: rounded up to two significant digits,
    /// so that it is never said to be smaller than it was found (JCGM 100:2008, 7.2.6 lets
    /// round up); `None` where there is none, or none above 0.
    #[must_use]
    pub fn repeatability_text(&self) -> Option<String> {
        let deviation = self.repeatability.as_ref().ok()?.deviation;
        Some(format!("{} {}", rounded_up(deviation)?, self.unit.symbol()))
    }
}

/// A value above 0, rounded up to two significant digits.
fn rounded_up(value: f64) -> Option<String> {
    if !(value > 0.0 && value.is_finite()) {
        return None;
    }
    let places = two_digit_places(value);
    let scale = (0..places).fold(1.0, |scale, _| scale * 10.0);
    // What a sum of squares leaves behind is no reason to round up.
    let up = (value * scale - 1e-6).ceil() / scale;
    let text = format!("{up:.places$}");
    // Carrying may have made a digit more, such as 0.100.
    Some(shortened(&text))
}

/// What is taken over from a study whose repeatability is `repeatability`.
#[must_use]
pub fn taken(facts: &StudyFacts, repeatability: String) -> Taken {
    let trials = facts.trials.try_into().unwrap_or(usize::MAX);
    Taken {
        repeatability,
        source: format!(
            "{BEGINS}{}, {}, {}, {}",
            facts.day.iso(),
            counted(facts.parts.len(), "part", "parts"),
            counted(facts.people.len(), "person", "people"),
            counted(trials, "trial", "trials"),
        ),
    }
}

impl Taken {
    /// The instrument with this repeatability. What else its source says stays; what an
    /// earlier study said there goes.
    #[must_use]
    pub fn over(&self, fact: &InstrumentFact) -> InstrumentFact {
        let said = fact.source.split(';').map(str::trim);
        let kept = said.filter(|said| !said.is_empty() && !said.starts_with(BEGINS));
        let source: Vec<&str> = kept.chain([self.source.as_str()]).collect();
        InstrumentFact {
            repeatability: Some(self.repeatability.clone()),
            source: source.join("; "),
            ..fact.clone()
        }
    }
}
