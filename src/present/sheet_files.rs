//! Scored sheets as files: which, what the worker needs for them, and what is said of it.

use std::collections::BTreeMap;

use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;

use super::scored::{may_be_seen, with_scored};
use super::scores::Rubrics;
use super::start::counted;
use super::sure::stamp_words;
use crate::job::{Binding, Fault, Job, Made, Outcome, PaperSize, Sheets, State, Topic};
use crate::output::{file_base, sheet_base};
use crate::records::{Ledger, Marking, MarkingId, PictureBytes, Record, SittingId};

/// The sheets that a person wants as a file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SheetsWanted {
    /// What the file is called, without an ending.
    pub base: String,
    /// What it is called inside.
    pub title: String,
    /// The markings, in the order of their sheets.
    pub markings: Vec<MarkingId>,
}

/// The sheet of one marking; `None` where it or its rubric is not here, or it is still
/// unseen.
pub fn sheet_wanted(
    ledger: &Ledger,
    rubrics: &Rubrics,
    marking: MarkingId,
) -> Option<SheetsWanted> {
    let marking = ledger.marking(marking)?;
    if !may_be_seen(ledger, marking) {
        return None;
    }
    with_scored(ledger, rubrics, marking, |scored| SheetsWanted {
        base: sheet_base(scored),
        title: scored.rubric.title.clone(),
        markings: vec![marking.id],
    })
}

/// The sheets of all that stands of a sitting, by ticket and name; `None` where
/// nothing of it is sealed.
pub fn sitting_wanted(ledger: &Ledger, sitting: SittingId) -> Option<SheetsWanted> {
    let sitting = ledger.sitting(sitting)?;
    let pieces = super::sittings::pieces_in_order(ledger, sitting.id);
    let counting = pieces
        .iter()
        .filter_map(|piece| ledger.standing(piece.id).counts());
    let markings: Vec<MarkingId> = counting.map(|marking| marking.id).collect();
    (!markings.is_empty()).then(|| SheetsWanted {
        base: file_base(sitting.day, sitting.kind.word(), &sitting.name),
        title: super::sittings::title(sitting),
        markings,
    })
}

/// Digests of the pictures on these sheets.
pub fn pictures_on(ledger: &Ledger, wanted: &SheetsWanted) -> Vec<String> {
    let markings = markings_of(ledger, wanted);
    let pictures = markings.flat_map(Marking::pictures);
    pictures.map(str::to_owned).collect()
}

/// By what the file is known again, and what the worker is to do.
///
/// *Errors:* in words, for people, where a record cannot be written.
pub fn sheets_job(
    ledger: &Ledger,
    wanted: &SheetsWanted,
    pictures: Vec<(String, PictureBytes)>,
    paper: PaperSize,
    binding: Binding,
) -> Result<(Topic, Job), String> {
    let pieces = markings_of(ledger, wanted).map(|marking| marking.piece);
    let records = ledger.about(pieces);
    let latest = records.iter().map(Record::stamp).max();
    let topic = Topic {
        about: format!("sheets {}", wanted.base),
        version: format!(
            "{} {paper:?} {binding:?}",
            latest.map(stamp_words).unwrap_or_default()
        ),
    };
    let texts = records.iter().map(Record::write);
    let texts: Result<Vec<String>, _> = texts.collect();
    let encoded = pictures
        .into_iter()
        .map(|(digest, bytes)| (digest, STANDARD.encode(bytes)));
    let job = Job::Sheets(Sheets {
        title: wanted.title.clone(),
        records: texts.map_err(|error| error.to_string())?,
        pictures: encoded.collect(),
        markings: wanted.markings.clone(),
        paper,
        binding,
    });
    Ok((topic, job))
}

fn markings_of<'a>(
    ledger: &'a Ledger,
    wanted: &'a SheetsWanted,
) -> impl Iterator<Item = &'a Marking> {
    let ids = wanted.markings.iter();
    ids.filter_map(|id| ledger.marking(*id))
}

/// The papers to choose from: word, title, note.
pub fn paper_choices() -> [(&'static str, &'static str, &'static str); 2] {
    PaperSize::ALL.map(|size| match size {
        PaperSize::A4 => (size.word(), "A4", "210 by 297 mm"),
        PaperSize::Letter => (size.word(), "Letter", "8½ by 11 in"),
    })
}

/// The ways to hand several sheets over: word, title, note.
pub fn binding_choices() -> [(&'static str, &'static str, &'static str); 2] {
    Binding::ALL.map(|way| match way {
        Binding::OnePdf => (way.word(), "One file", "A PDF with a bookmark for each"),
        Binding::Zip => (way.word(), "A file for each", "PDFs in a ZIP"),
    })
}

/// How a file stands that was asked for.
#[derive(Debug, Clone, PartialEq)]
pub enum FileState {
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
        /// What to say of it.
        text: String,
        /// Characters that are boxes in it; empty where there are none.
        boxes: String,
    },
    /// There is none: why, and what to do.
    None(String),
}

/// What to do and say while the file stands so.
pub fn file_state(state: Option<&State>) -> FileState {
    match state {
        None | Some(State::Waiting) => FileState::Busy {
            text: "Getting ready to make the file.",
            share: None,
        },
        Some(State::Working(share)) => FileState::Busy {
            text: "Making the file.",
            share: (*share > 0.0).then_some(*share),
        },
        Some(State::Stopped) => {
            FileState::None("Stopped before the file was made. Nothing was saved.".to_owned())
        }
        Some(State::Failed(fault)) => {
            FileState::None(fault_words(fault, "Print the sheet instead"))
        }
        Some(State::Done(outcome)) => match outcome.as_ref() {
            Outcome::Sheets(made) => ready(made),
            _ => FileState::None(MIXED_UP.to_owned()),
        },
    }
}

pub(super) const MIXED_UP: &str = "Page and worker do not understand each other. Reload the page.";

fn ready(made: &Made) -> FileState {
    match STANDARD.decode(&made.data) {
        Err(_) => FileState::None(MIXED_UP.to_owned()),
        Ok(bytes) => FileState::Ready {
            bytes,
            text: format!(
                "{} on {}.",
                counted(made.sheets, "sheet", "sheets"),
                counted(made.pages, "page", "pages")
            ),
            boxes: boxes_words(&made.missing),
        },
    }
}

/// So many characters are named one by one.
const MOST_NAMED: usize = 12;

fn boxes_words(missing: &BTreeMap<char, usize>) -> String {
    let count: usize = missing.values().sum();
    if count == 0 {
        return String::new();
    }
    let named = missing.keys().take(MOST_NAMED);
    let named: Vec<String> = named.map(char::to_string).collect();
    let more = match missing.len().saturating_sub(MOST_NAMED) {
        0 => String::new(),
        more => format!(" and {more} more"),
    };
    format!(
        "{} drawn as a box, because the file’s typeface does not have it: {}{more}. The text \
         itself is in the file and can be copied.",
        match count {
            1 => "One character is".to_owned(),
            count => format!("{count} characters are"),
        },
        named.join(" ")
    )
}

/// Why there is no file; `otherwise` is what can be done where none can be made at all.
pub(super) fn fault_words(fault: &Fault, otherwise: &str) -> String {
    match fault {
        Fault::NotStarted(why) => format!(
            "The file cannot be made here: the part of the page that does it did not start. \
             {otherwise}, or try again once there is a connection. The reason \
             given: {why}."
        ),
        Fault::Broken(why) => format!(
            "Making the file broke off. Nothing kept on this device is lost. Try again; if it \
             says this again, reload the page. The reason given: {why}."
        ),
        Fault::Refused(why) => format!("The file cannot be made: {why}."),
    }
}
