//! Marks as tables: which, what the worker needs for them, and what is said of it.

use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;

use super::sheet_files::{MIXED_UP, SheetsWanted, fault_words};
use super::start::counted;
use super::sure::stamp_words;
use crate::job::{Job, MadeTable, Outcome, State, TableFormat, Tables, Topic};
use crate::records::{Layout, Ledger, Record};

/// By what the file is known again, and what the worker is to do.
///
/// *Errors:* in words, for people, where a record cannot be written.
pub fn tables_job(
    ledger: &Ledger,
    wanted: &SheetsWanted,
    format: TableFormat,
) -> Result<(Topic, Job), String> {
    let markings = wanted.markings.iter().filter_map(|id| ledger.marking(*id));
    let mut records = ledger.about(markings.map(|marking| marking.piece));
    records.extend(ledger.table_heads().cloned().map(Record::from));
    let latest = records.iter().map(Record::stamp).max();
    let topic = Topic {
        about: format!("table {}", wanted.base),
        version: format!(
            "{} {}",
            latest.map(stamp_words).unwrap_or_default(),
            format.word()
        ),
    };
    let texts = records.iter().map(Record::write);
    let texts: Result<Vec<String>, _> = texts.collect();
    let job = Job::Tables(Tables {
        title: wanted.title.clone(),
        records: texts.map_err(|error| error.to_string())?,
        markings: wanted.markings.clone(),
        format,
    });
    Ok((topic, job))
}

/// What the file is called without its ending: tables of one marking that are laid out
/// differently lie beside one another.
pub fn table_base(wanted: &SheetsWanted, format: TableFormat) -> String {
    match format {
        TableFormat::Csv(Layout::Wide) => format!("{}_wide", wanted.base),
        TableFormat::Xlsx | TableFormat::Csv(Layout::Long) => wanted.base.clone(),
    }
}

/// The formats to choose from: word, title, note.
pub fn format_choices() -> [(&'static str, &'static str, &'static str); 3] {
    TableFormat::ALL.map(|format| {
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
    })
}

/// How a table stands that was asked for.
#[derive(Debug, Clone, PartialEq)]
pub enum TableState {
    /// It is being made.
    Busy {
        /// How it stands.
        text: &'static str,
        /// How much is done, from 0 to 1, where that is known.
        share: Option<f64>,
    },
    /// Here it is.
    Ready {
        /// Its bytes.
        bytes: Vec<u8>,
        /// What there is to say of it.
        text: String,
    },
    /// There is none: why, and what to do.
    None(String),
}

/// What to do and say while the table stands so.
pub fn table_state(state: Option<&State>) -> TableState {
    match state {
        None | Some(State::Waiting) => TableState::Busy {
            text: "Getting ready to make the file.",
            share: None,
        },
        Some(State::Working(share)) => TableState::Busy {
            text: "Making the file.",
            share: (*share > 0.0).then_some(*share),
        },
        Some(State::Stopped) => {
            TableState::None("Stopped before the file was made. Nothing was saved.".to_owned())
        }
        Some(State::Failed(fault)) => TableState::None(fault_words(
            fault,
            "Print the sheet or save a sealed one as JSON instead",
        )),
        Some(State::Done(outcome)) => match outcome.as_ref() {
            Outcome::Tables(made) => ready(made),
            _ => TableState::None(MIXED_UP.to_owned()),
        },
    }
}

fn ready(made: &MadeTable) -> TableState {
    match STANDARD.decode(&made.data) {
        Err(_) => TableState::None(MIXED_UP.to_owned()),
        Ok(bytes) => TableState::Ready {
            bytes,
            text: format!("{}.", counted(made.markings, "marking", "markings")),
        },
    }
}
