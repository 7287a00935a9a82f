//! The records and rubrics that files of markings are made from.

use std::collections::BTreeMap;

use super::perform::read;
use crate::records::{Ledger, MarkingId, Record};
use crate::rubric::Rubric;
use crate::sheet::Scored;

/// The ledger of records as JSON.
///
/// *Errors:* in words, for people.
pub(super) fn ledger_of(records: &[String]) -> Result<Ledger, String> {
    let records = records.iter().map(|text| Record::read(text));
    let records: Vec<Record> = records
        .collect::<Result<_, _>>()
        .map_err(|fault| fault.to_string())?;
    Ok(Ledger::of(records))
}

/// The rubrics of markings, each read once, by digest.
#[derive(Debug)]
pub(super) struct ReadRubrics<'a>(BTreeMap<&'a str, Rubric>);

impl<'a> ReadRubrics<'a> {
    /// Those of `markings`.
    ///
    /// *Errors:* in words, for people, where a marking or its rubric is not here or cannot be
    /// read.
    pub(super) fn of(ledger: &'a Ledger, markings: &[MarkingId]) -> Result<Self, String> {
        let mut rubrics = BTreeMap::new();
        for id in markings {
            let marking = ledger.marking(*id).ok_or_else(lost)?;
            let version = ledger.rubric(&marking.rubric).ok_or_else(lost)?;
            if !rubrics.contains_key(version.digest.as_str()) {
                rubrics.insert(version.digest.as_str(), read(&version.text)?);
            }
        }
        Ok(Self(rubrics))
    }

    /// A marking with what it comes to by its rubric.
    ///
    /// *Errors:* in words, for people, where something is not here.
    pub(super) fn scored<'s>(
        &'s self,
        ledger: &'s Ledger,
        id: MarkingId,
    ) -> Result<Scored<'s>, String> {
        let marking = ledger.marking(id).ok_or_else(lost)?;
        let rubric = self.0.get(marking.rubric.as_str()).ok_or_else(lost)?;
        let scored = Scored::in_ledger(ledger, marking, rubric).ok_or_else(lost)?;
        Ok(scored)
    }
}

fn lost() -> String {
    "a marking or what it names is no longer here; reload the page".to_owned()
}

/// How much is done of so many, from 0 to 1.
pub(super) fn share(done: usize, of: usize) -> f64 {
    let count = |count: usize| u32::try_from(count).map_or(f64::MAX, f64::from);
    count(done) / count(of).max(1.0)
}
