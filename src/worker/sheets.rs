//! What scored sheets say: found in the records, weighed, and put into documents.

use std::collections::BTreeMap;

use super::perform::read;
use crate::conformity::weigh;
use crate::job::Titled;
use crate::output::sheet_base;
use crate::records::{Ledger, MarkingId, Record};
use crate::rubric::Rubric;
use crate::sheet::{Scored, scored_sheet};

/// The sheet of each marking; `tell` hears how many there are.
///
/// *Errors:* in words, for people.
pub(super) fn sheets(
    records: &[String],
    markings: &[MarkingId],
    tell: &mut dyn FnMut(usize),
) -> Result<Vec<Titled>, String> {
    let ledger = ledger_of(records)?;
    let mut rubrics = BTreeMap::new();
    let mut said = Vec::new();
    for id in markings {
        said.push(sheet(&ledger, &mut rubrics, *id)?);
        tell(said.len());
    }
    Ok(said)
}

fn ledger_of(records: &[String]) -> Result<Ledger, String> {
    let records = records.iter().map(|text| Record::read(text));
    let records: Vec<Record> = records
        .collect::<Result<_, _>>()
        .map_err(|fault| fault.to_string())?;
    Ok(Ledger::of(records))
}

fn sheet<'a>(
    ledger: &'a Ledger,
    rubrics: &mut BTreeMap<&'a str, Rubric>,
    id: MarkingId,
) -> Result<Titled, String> {
    let lost = || "a marking or what it names is no longer here; reload the page".to_owned();
    let marking = ledger.marking(id).ok_or_else(lost)?;
    let version = ledger.rubric(&marking.rubric).ok_or_else(lost)?;
    if !rubrics.contains_key(version.digest.as_str()) {
        rubrics.insert(&version.digest, read(&version.text)?);
    }
    let rubric = rubrics.get(version.digest.as_str()).ok_or_else(lost)?;
    let scored = Scored::in_ledger(ledger, marking, rubric).ok_or_else(lost)?;
    let base = sheet_base(&scored);
    // How sure an agreed marking is lies in those that it is made from; and a sheet stands
    // without it where it cannot be worked out.
    let certainty = match marking.agreement {
        Some(_) => None,
        None => weigh(rubric, &marking.facts).ok(),
    };
    let document = match &certainty {
        Some(certainty) => scored_sheet(&scored.weighed(certainty)),
        None => scored_sheet(&scored),
    };
    Ok(Titled { base, document })
}
