//! Marks as tables: which, and what the worker needs for them.

use super::paper_files::{Choice, PapersWanted, Says, markings_of, sent};
use crate::job::{Job, TableFormat, Tables, Topic};
use crate::records::{Layout, Ledger, Record};

/// By what the table of the marks on these sheets is known again, and what the worker is to
/// do.
///
/// *Errors:* in words, for people, where they are no sheets, or a record cannot be written.
pub fn tables_job(
    ledger: &Ledger,
    wanted: &PapersWanted,
    format: TableFormat,
) -> Result<(Topic, Job), String> {
    let Says::Sheets(markings) = &wanted.says else {
        return Err("These are no marks, so they cannot be saved as a table.".to_owned());
    };
    let pieces = markings_of(ledger, markings).map(|marking| marking.piece);
    let mut records = ledger.about(pieces);
    records.extend(ledger.table_heads().cloned().map(Record::from));
    let (version, records) = sent(&records)?;
    let topic = Topic {
        about: format!("table {}", wanted.base),
        version: format!("{version} {}", format.word()),
    };
    let job = Job::Tables(Tables {
        title: wanted.title.clone(),
        records,
        markings: markings.clone(),
        format,
    });
    Ok((topic, job))
}

/// What the file is called without its ending: tables of one marking that are laid out
/// differently lie beside one another.
pub fn table_base(wanted: &PapersWanted, format: TableFormat) -> String {
    match format {
        TableFormat::Csv(Layout::Wide) => format!("{}_wide", wanted.base),
        TableFormat::Xlsx | TableFormat::Csv(Layout::Long) => wanted.base.clone(),
    }
}

/// The formats to choose from.
pub fn format_choices() -> Vec<Choice> {
    let choice = |format: TableFormat| {
        let (title, note) = match format {
            TableFormat::Xlsx => (
                "Workbook",
                "XLSX: marks, readings, totals and rubric on sheets of their own",
            ),
            TableFormat::Csv(Layout::Long) => (
                "CSV, long",
                "A row for each criterion, with readings and exact marks",
            ),
            TableFormat::Csv(Layout::Wide) => (
                "CSV, wide",
                "A row for each marking, a column for each criterion",
            ),
        };
        (format.word(), title, note)
    };
    TableFormat::ALL.map(choice).to_vec()
}
