//! What scored sheets say: found in the records, weighed, and put into documents.

use super::scored::{ReadRubrics, ledger_of};
use crate::conformity::weigh;
use crate::job::Titled;
use crate::output::sheet_base;
use crate::records::{Ledger, MarkingId};
use crate::sheet::scored_sheet;

/// The sheet of each marking; `tell` hears how many there are.
///
/// *Errors:* in words, for people.
pub(super) fn sheets(
    records: &[String],
    markings: &[MarkingId],
    tell: &mut dyn FnMut(usize),
) -> Result<Vec<Titled>, String> {
    let ledger = ledger_of(records)?;
    let rubrics = ReadRubrics::of(&ledger, markings)?;
    let mut said = Vec::new();
    for id in markings {
        said.push(sheet(&ledger, &rubrics, *id)?);
        tell(said.len());
    }
    Ok(said)
}

fn sheet(ledger: &Ledger, rubrics: &ReadRubrics<'_>, id: MarkingId) -> Result<Titled, String> {
    let scored = rubrics.scored(ledger, id)?;
    let marking = scored.parts.marking;
    let base = sheet_base(&scored);
    // How sure an agreed marking is lies in those that it is made from; and a sheet stands
    // without it where it cannot be worked out.
    let certainty = match marking.agreement {
        Some(_) => None,
        None => weigh(scored.rubric, &marking.facts).ok(),
    };
    let document = match &certainty {
        Some(certainty) => scored_sheet(&scored.weighed(certainty)),
        None => scored_sheet(&scored),
    };
    Ok(Titled { base, document })
}
