//! The page of the whole ledger: what is on the device, everything as one file, and
//! such a file read back.

mod notes;
mod take_over;

use std::collections::BTreeSet;
use std::sync::Arc;

use super::start::sentence;
use crate::records::{
    Bundle, BundleError, Device, Kind, Ledger, Moment, PictureBytes, RawRecord, Record, RecordKey,
};
use crate::store::Unreadable;

pub use take_over::{MergeRow, TakeOver};

/// Files of more bytes are refused unread: no ledger comes near it, and a browser
/// might go down over it.
pub const MOST_BYTES: u64 = 400_000_000;

/// What a device holds.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LedgerPage {
    /// How many records there are.
    pub counted: String,
    /// How many of each kind.
    pub kinds: Vec<(&'static str, String)>,
    /// Each record that cannot be read, and why.
    pub unreadable: Vec<String>,
    /// Whether there is something to save.
    pub has_something: bool,
}

/// The page of what `ledger` and the stored texts beside it hold.
pub fn ledger_page(ledger: &Ledger, unreadable: &[Unreadable]) -> LedgerPage {
    let counts = Kind::ALL.map(|kind| (kind, count_of(ledger, kind)));
    let all: usize = counts.iter().map(|(_, count)| count).sum();
    let drafts = ledger.drafts().count();
    let kinds = counts.map(|(kind, count)| {
        let text = match (kind, drafts) {
            (Kind::Marking, 1..) if count > 0 => format!("{count}, {}", counted(drafts, "draft")),
            _ => count.to_string(),
        };
        (title(kind), text)
    });
    LedgerPage {
        counted: match all {
            0 => "nothing on this device yet".to_owned(),
            all => format!("{} on this device", counted(all, "record")),
        },
        kinds: kinds.to_vec(),
        unreadable: unreadable
            .iter()
            .map(|record| format!("{}: {}", record.key, sentence(&record.why.to_string())))
            .collect(),
        has_something: all + unreadable.len() > 0,
    }
}

/// A ledger as a file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LedgerFile {
    /// Its name without the ending.
    pub base: String,
    /// The whole text.
    pub text: String,
    /// What to say once it is handed over.
    pub words: String,
}

/// Everything on `device` as one file, with the bytes of its pictures by digest.
///
/// *Errors:* in words, for people.
pub fn ledger_file(
    ledger: &Ledger,
    unreadable: &[Unreadable],
    pictures: Vec<(String, PictureBytes)>,
    device: &Device,
    now: Moment,
) -> Result<LedgerFile, String> {
    let raw = unreadable.iter().map(|record| RawRecord {
        key: record.key.clone(),
        text: record.text.clone(),
    });
    let had = pictures.len();
    let bundle = Bundle::of(ledger, raw.collect(), device.name(), now).with_pictures(pictures);
    let text = bundle.write().map_err(|error| told(&error))?;
    let base = format!("evenshod-ledger-{}", now.day().iso());
    let held = counted(bundle.records().len(), "record");
    let beside = match unreadable.len() {
        0 => String::new(),
        count => format!(", and {} that cannot be read here", counted(count, "text")),
    };
    let without = match ledger.pictures().count().saturating_sub(had) {
        0 => String::new(),
        1 => " One picture is not on this device, so it is not in the file.".to_owned(),
        count => {
            format!(" {count} pictures are not on this device, so they are not in the file.")
        }
    };
    Ok(LedgerFile {
        words: format!(
            "{base}.json holds {held}{beside}.{without} Keep it on another device, and where only those \
             may see it who may see the records."
        ),
        base,
        text,
    })
}

/// Reads a file that somebody chose.
///
/// *Errors:* in words, for people: what is wrong, where, and how to mend it.
pub fn read_ledger_file(bytes: &[u8]) -> Result<Arc<Bundle>, String> {
    Bundle::read(bytes)
        .map(Arc::new)
        .map_err(|error| told(&error))
}

/// What to say of a file that is not read because of its size; `None` where it is.
pub fn too_large(bytes: u64) -> Option<String> {
    (bytes > MOST_BYTES).then(|| {
        format!(
            "The file has {} MB, and a ledger file has at most {}. Choose a file that was saved \
             on the page Ledger, its name begins with evenshod-ledger.",
            bytes / 1_000_000,
            MOST_BYTES / 1_000_000
        )
    })
}

/// What to say of a file that the browser does not hand over.
pub fn not_handed_over(why: &str) -> String {
    format!(
        "The browser could not read the file ({why}). Copy it to this device first, then choose \
         it again."
    )
}

fn told(error: &BundleError) -> String {
    sentence(&error.to_string())
}

/// Keys of stored records that cannot be read and so are not written.
fn left_alone(unreadable: &[Unreadable]) -> BTreeSet<RecordKey> {
    let keys = unreadable.iter().map(|record| record.key.parse());
    keys.filter_map(Result::ok).collect()
}

fn count_of(ledger: &Ledger, kind: Kind) -> usize {
    match kind {
        Kind::Learner => ledger.learners().count(),
        Kind::Examiner => ledger.examiners().count(),
        Kind::Milestone => ledger.milestones().count(),
        Kind::Sitting => ledger.sittings().count(),
        Kind::Instrument => ledger.instruments().count(),
        Kind::Study => ledger.studies().count(),
        Kind::TableHead => ledger.table_heads().count(),
        Kind::Picture => ledger.pictures().count(),
        Kind::Rubric => ledger.rubrics().count(),
        Kind::RubricDraft => ledger.rubric_drafts().count(),
        Kind::Piece => ledger.pieces().count(),
        Kind::Marking => ledger.markings().count(),
    }
}

/// Records of a kind, as a heading.
fn title(kind: Kind) -> &'static str {
    match kind {
        Kind::Learner => "Learners",
        Kind::Examiner => "Examiners",
        Kind::Milestone => "Milestones",
        Kind::Sitting => "Sittings",
        Kind::Instrument => "Instruments",
        Kind::Study => "Instrument studies",
        Kind::TableHead => "Table heads",
        Kind::Picture => "Pictures",
        Kind::Rubric => "Rubrics",
        Kind::RubricDraft => "Rubrics in work",
        Kind::Piece => "Pieces",
        Kind::Marking => "Markings",
    }
}

/// `1 record`, `2 records`.
fn counted(count: usize, what: &str) -> String {
    crate::quantity::counted(count, what, &format!("{what}s"))
}

/// How many of each kind, in one line: `2 learners, 1 piece`.
fn counted_kinds(records: &[Record]) -> String {
    let kinds = Kind::ALL.into_iter().filter_map(|kind| {
        let of_kind = records.iter().filter(|record| record.kind() == kind);
        let count = of_kind.count();
        (count > 0).then(|| match kind {
            Kind::Study => {
                crate::quantity::counted(count, "instrument study", "instrument studies")
            }
            kind => counted(count, &kind.word().replace('-', " ")),
        })
    });
    kinds.collect::<Vec<_>>().join(", ")
}
