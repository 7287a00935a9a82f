use crate::marking::{CutFact, Facts};
use crate::present::start::sentence;
use crate::quantity::Unit;
use crate::rubric::Rubric;

/// The length that the bar was cut to, as it was typed.
pub fn cut_text(facts: &Facts) -> String {
    let cut = facts.cut.as_ref();
    cut.map(|cut| cut.text.clone()).unwrap_or_default()
}

/// What a typed length says, where a bare number means `unit`; `None` where nothing is typed.
pub fn cut_typed(text: String, unit: Unit) -> Option<CutFact> {
    (!text.trim().is_empty()).then(|| CutFact::of(text, unit))
}

/// What is wrong with it, and what would do; nothing while nothing is.
pub fn cut_wrong(rubric: &Rubric, facts: &Facts) -> String {
    let wrong = facts
        .cut
        .as_ref()
        .and_then(|cut| cut.read(rubric.unit).err());
    wrong.map(|why| sentence(&why)).unwrap_or_default()
}
