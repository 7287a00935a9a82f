//! Marks as a workbook or as comma-separated values.

use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;

use super::scored::{ReadRubrics, ledger_of, share};
use crate::job::{MadeTable, TableFormat, Tables};
use crate::output::{csv, xlsx};
use crate::records::Layout;
use crate::sheet::{Scored, in_columns, long_rows, wide_rows, workbook};

/// Makes the file; `tell` hears how much is done, from 0 to 1.
///
/// *Errors:* in words, for people.
pub(super) fn tables(wanted: &Tables, tell: &mut dyn FnMut(f64)) -> Result<MadeTable, String> {
    let ledger = ledger_of(&wanted.records)?;
    let rubrics = ReadRubrics::of(&ledger, &wanted.markings)?;
    let mut scored: Vec<Scored<'_>> = Vec::new();
    for (done, id) in (1..).zip(&wanted.markings) {
        scored.push(rubrics.scored(&ledger, *id)?);
        tell(share(done, wanted.markings.len()));
    }
    let bytes = match wanted.format {
        TableFormat::Xlsx => {
            xlsx::write(&workbook(&wanted.title, &scored)).map_err(|fault| fault.to_string())?
        }
        TableFormat::Csv(layout) => {
            let rows = match layout {
                Layout::Long => long_rows(&scored),
                Layout::Wide => wide_rows(&scored),
            };
            let rows = in_columns(rows, ledger.columns(layout)).map_err(|same| same.to_string())?;
            csv::write(&rows)
                .map_err(|fault| fault.to_string())?
                .into_bytes()
        }
    };
    Ok(MadeTable {
        data: STANDARD.encode(bytes),
        markings: scored.len(),
    })
}
