//! Readings that say by themselves how sure they are.

use crate::conformity::reading_uncertainty;
use crate::marking::{Facts, taken_with};
use crate::quantity::Unit;
use crate::rubric::{Rubric, Slot};

use super::sure_criteria::uncertainty_words;

/// How sure readings taken with the instrument `id` say they are, of all in `slots`.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct StatedReadings {
    /// The standard uncertainty of each that states its own, in base units: its own part and
    /// the shared one together (JCGM 100:2008, 5.1.2).
    standards: Vec<f64>,
    /// Whether others were taken with it that state none.
    pub has_others: bool,
}

impl StatedReadings {
    /// Those of a marking.
    pub fn of<'r>(
        rubric: &Rubric,
        facts: &Facts,
        slots: impl IntoIterator<Item = &'r Slot<'r>>,
        id: &str,
    ) -> Self {
        let mut all = Self::default();
        for slot in slots {
            let readings = facts.readings.get(&slot.id).into_iter().flatten();
            for reading in readings.filter(|reading| reading.is_written()) {
                if reading.instrument.as_deref().or(slot.instrument) != Some(id) {
                    continue;
                }
                let stated = reading.stated.as_ref();
                match stated.and_then(|_| taken_with(rubric, facts, slot, reading)) {
                    Some(found) => all.standards.push(reading_uncertainty(&found, 0.0)),
                    None => all.has_others = true,
                }
            }
        }
        all
    }

    /// In words, from the least to the most: `standard uncertainty 0.11 mm to 0.13 mm`; `None`
    /// where no reading states its own.
    pub fn words(&self, unit: Unit) -> Option<String> {
        let said = |size: &f64| uncertainty_words(*size, unit);
        let mut standards = self.standards.iter();
        let least = standards
            .clone()
            .min_by(|one, other| one.total_cmp(other))?;
        let most = standards
            .clone()
            .max_by(|one, other| one.total_cmp(other))?;
        let (least, most) = (said(least), said(most));
        let is_one = standards.len() == 1 || standards.all(|size| said(size) == least);
        Some(match is_one {
            true => format!("standard uncertainty {least}"),
            false => format!("standard uncertainty {least} to {most}"),
        })
    }
}
