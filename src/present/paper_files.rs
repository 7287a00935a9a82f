//! Documents as files: which, what the worker needs for them, and what is said of it.

use std::collections::BTreeMap;

use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;

use super::scored::{may_be_seen, with_scored};
use super::scores::Rubrics;
use super::sure::stamp_words;
use crate::job::{
    Binding, Content, Fault, Form, Job, Made, MadeTable, Outcome, PaperKind, PaperSize, Papers,
    State, Titled, Topic,
};
use crate::output::{file_base, sheet_base};
use crate::quantity::counted;
use crate::records::{
    Day, Ledger, Marking, MarkingId, PictureBytes, Record, SittingId, sha256_hex,
};
use crate::sheet::{Block, Document};

/// Documents that a person wants as a file.
#[derive(Debug, Clone, PartialEq)]
pub struct PapersWanted {
    /// What the file is called, without an ending.
    pub base: String,
    /// What it is called inside.
    pub title: String,
    /// What it is to say.
    pub says: Says,
}

/// What papers are to say.
#[derive(Debug, Clone, PartialEq)]
pub enum Says {
    /// The sheets of these markings, in their order.
    Sheets(Vec<MarkingId>),
    /// These documents.
    Documents(Vec<Titled>),
}

/// A document that is shown, as a file of its own, saved on this day; `what` it is goes into
/// the file's name.
pub fn document_wanted(day: Day, what: &str, document: Document) -> PapersWanted {
    let base = file_base(day, &document.title, what);
    PapersWanted {
        title: document.title.clone(),
        says: Says::Documents(vec![Titled {
            base: base.clone(),
            document,
        }]),
        base,
    }
}

/// The sheet of one marking; `None` where it or its rubric is not here, or it is still
/// unseen.
pub fn sheet_wanted(
    ledger: &Ledger,
    rubrics: &Rubrics,
    marking: MarkingId,
) -> Option<PapersWanted> {
    let marking = ledger.marking(marking)?;
    if !may_be_seen(ledger, marking) {
        return None;
    }
    with_scored(ledger, rubrics, marking, |scored| PapersWanted {
        base: sheet_base(scored),
        title: scored.rubric.title.clone(),
        says: Says::Sheets(vec![marking.id]),
    })
}

/// The sheets of all that stands of a sitting, by ticket and name; `None` where
/// nothing of it is sealed.
pub fn sitting_wanted(ledger: &Ledger, sitting: SittingId) -> Option<PapersWanted> {
    let sitting = ledger.sitting(sitting)?;
    let pieces = super::sittings::pieces_in_order(ledger, sitting.id);
    let counting = pieces
        .iter()
        .filter_map(|piece| ledger.standing(piece.id).counts());
    let markings: Vec<MarkingId> = counting.map(|marking| marking.id).collect();
    (!markings.is_empty()).then(|| PapersWanted {
        base: file_base(sitting.day, sitting.kind.word(), &sitting.name),
        title: super::sittings::title(sitting),
        says: Says::Sheets(markings),
    })
}

/// Digests of the pictures in these papers.
pub fn pictures_in(ledger: &Ledger, wanted: &PapersWanted) -> Vec<String> {
    let digests: Vec<&str> = match &wanted.says {
        Says::Sheets(markings) => markings_of(ledger, markings)
            .flat_map(Marking::pictures)
            .collect(),
        Says::Documents(documents) => {
            let blocks = documents.iter().flat_map(|one| &one.document.blocks);
            let pictured = blocks.flat_map(|block| match block {
                Block::Pictures(pictures) => pictures.as_slice(),
                _ => &[],
            });
            pictured.map(|pictured| pictured.digest.as_str()).collect()
        }
    };
    digests.into_iter().map(str::to_owned).collect()
}

/// By what the file is known again, and what the worker is to do.
///
/// *Errors:* in words, for people, where a record or document cannot be written.
pub fn papers_job(
    ledger: &Ledger,
    wanted: PapersWanted,
    pictures: Vec<(String, PictureBytes)>,
    form: Form,
) -> Result<(Topic, Job), String> {
    let (version, content) = match wanted.says {
        Says::Sheets(markings) => of_sheets(ledger, markings)?,
        Says::Documents(documents) => {
            let written = serde_json::to_vec(&documents).map_err(|fault| fault.to_string())?;
            (sha256_hex(&written), Content::Documents(documents))
        }
    };
    let topic = Topic {
        about: format!("papers {}", wanted.base),
        version: format!("{version} {form:?}"),
    };
    let encoded = pictures
        .into_iter()
        .map(|(digest, bytes)| (digest, STANDARD.encode(bytes)));
    let job = Job::Papers(Papers {
        title: wanted.title,
        content,
        pictures: encoded.collect(),
        form,
    });
    Ok((topic, job))
}

fn of_sheets(ledger: &Ledger, markings: Vec<MarkingId>) -> Result<(String, Content), String> {
    let pieces = markings_of(ledger, &markings).map(|marking| marking.piece);
    let (version, records) = sent(&ledger.about(pieces))?;
    Ok((version, Content::Sheets { records, markings }))
}

/// Records as they are sent to the worker, and by what their state is known again.
///
/// *Errors:* in words, where one cannot be written.
pub(super) fn sent(records: &[Record]) -> Result<(String, Vec<String>), String> {
    let latest = records.iter().map(Record::stamp).max();
    let texts = records.iter().map(Record::write);
    let texts: Result<Vec<String>, _> = texts.collect();
    let texts = texts.map_err(|error| error.to_string())?;
    Ok((latest.map(stamp_words).unwrap_or_default(), texts))
}

/// These markings, as far as they are here.
pub(super) fn markings_of<'a>(
    ledger: &'a Ledger,
    markings: &'a [MarkingId],
) -> impl Iterator<Item = &'a Marking> {
    markings.iter().filter_map(|id| ledger.marking(*id))
}

/// A choice: word, title, note.
pub type Choice = (&'static str, &'static str, &'static str);

/// The kinds of file to choose from.
pub fn kind_choices() -> Vec<Choice> {
    let choice = |kind: &PaperKind| match kind {
        PaperKind::Pdf => (
            kind.word(),
            "PDF",
            "Pages to print and to search, with tags",
        ),
        PaperKind::Text => (kind.word(), "Plain text", "The words alone, no drawings"),
    };
    PaperKind::ALL.iter().map(choice).collect()
}

/// These papers to choose from.
pub fn size_choices(sizes: &[PaperSize]) -> Vec<Choice> {
    let choice = |size: &PaperSize| match size {
        PaperSize::A4 => (size.word(), "A4", "210 by 297 mm"),
        PaperSize::Letter => (size.word(), "Letter", "8½ by 11 in"),
        PaperSize::A5 => (size.word(), "A5", "148 by 210 mm"),
        PaperSize::HalfLetter => (size.word(), "Half Letter", "5½ by 8½ in"),
        PaperSize::A6 => (size.word(), "A6", "105 by 148 mm, for the pocket"),
    };
    sizes.iter().map(choice).collect()
}

/// The ways to hand several documents over.
pub fn binding_choices() -> Vec<Choice> {
    let choice = |way: &Binding| match way {
        Binding::One => (way.word(), "One file", "All of them one after the other"),
        Binding::Zip => (way.word(), "A file for each", "Together in a ZIP"),
    };
    Binding::ALL.iter().map(choice).collect()
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
        Some(State::Failed(fault)) => FileState::None(fault_words(fault)),
        Some(State::Done(outcome)) => match outcome.as_ref() {
            Outcome::Papers(made) => ready(made),
            Outcome::Tables(made) => table_ready(made),
            Outcome::Certainty(_)
            | Outcome::Cohort(_)
            | Outcome::Agreement(_)
            | Outcome::Course(_)
            | Outcome::Study(_)
            | Outcome::Photo(_) => FileState::None(MIXED_UP.to_owned()),
        },
    }
}

/// What is said where an answer is none to what was asked.
pub(super) const MIXED_UP: &str = "Page and worker do not understand each other. Reload the page.";

fn ready(made: &Made) -> FileState {
    match STANDARD.decode(&made.data) {
        Err(_) => FileState::None(MIXED_UP.to_owned()),
        Ok(bytes) => FileState::Ready {
            bytes,
            text: made_words(made),
            boxes: boxes_words(&made.missing),
        },
    }
}

fn table_ready(made: &MadeTable) -> FileState {
    match STANDARD.decode(&made.data) {
        Err(_) => FileState::None(MIXED_UP.to_owned()),
        Ok(bytes) => FileState::Ready {
            bytes,
            text: format!("{}.", counted(made.markings, "marking", "markings")),
            boxes: String::new(),
        },
    }
}

/// `3 documents on 12 pages`; one document needs no count.
fn made_words(made: &Made) -> String {
    let documents = (made.documents != 1).then(|| counted(made.documents, "document", "documents"));
    let pages = (made.pages > 0).then(|| counted(made.pages, "page", "pages"));
    match (documents, pages) {
        (Some(documents), Some(pages)) => format!("{documents} on {pages}."),
        (Some(words), None) | (None, Some(words)) => format!("{words}."),
        (None, None) => "saved.".to_owned(),
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

fn fault_words(fault: &Fault) -> String {
    match fault {
        Fault::NotStarted(why) => format!(
            "The file cannot be made here: the part of the page that does it did not start. \
             Print the page instead, or try again once there is a connection. The reason \
             given: {why}."
        ),
        Fault::Broken(why) => format!(
            "Making the file broke off. Nothing kept on this device is lost. Try again; if it \
             says this again, reload the page. The reason given: {why}."
        ),
        Fault::Refused(why) => format!("The file cannot be made: {why}."),
    }
}
