//! What the pieces of a cohort come to, as its page shows it or as a file.

use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;

use crate::cohort::Cohort;
use crate::job::{CohortForm, CohortWanted, MadeTable, Outcome};
use crate::output::{csv, xlsx};
use crate::sheet::{cohort_rows, cohort_sheet, cohort_workbook};

/// Makes what is wanted.
///
/// *Errors:* in words, for people, where a file cannot be written.
pub(super) fn cohort(wanted: &CohortWanted) -> Result<Outcome, String> {
    let CohortWanted { cohort, form } = wanted;
    let bytes = match form {
        CohortForm::Sheet => return Ok(Outcome::Cohort(cohort_sheet(cohort))),
        CohortForm::Xlsx => {
            xlsx::write(&cohort_workbook(cohort)).map_err(|fault| fault.to_string())?
        }
        CohortForm::Csv => csv::write(&cohort_rows(cohort))
            .map_err(|fault| fault.to_string())?
            .into_bytes(),
    };
    Ok(Outcome::Tables(MadeTable {
        data: STANDARD.encode(bytes),
        markings: markings(cohort),
    }))
}

/// How many pieces, each with the marking that it stands for, are behind it.
fn markings(cohort: &Cohort) -> usize {
    let people = cohort.people.iter();
    people.map(|person| person.pieces.len()).sum()
}
