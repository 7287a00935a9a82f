use std::sync::Arc;

use super::notes::note_words;
use super::{counted, counted_kinds, left_alone, title};
use crate::command::Command;
use crate::records::{Bundle, Counts, Kind, Ledger, Merge};
use crate::store::Unreadable;

/// How many notes are told one by one.
const TOLD: usize = 30;

/// What taking a file over would change, in words.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TakeOver {
    /// Where the file comes from.
    pub from: String,
    /// What it comes to.
    pub outcome: String,
    /// Whether anything would change.
    pub changes: bool,
    /// By kind.
    pub rows: Vec<MergeRow>,
    /// What to know before.
    pub notes: Vec<String>,
    /// What to say once it is stored.
    pub done: String,
}

/// One kind of records.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct MergeRow {
    /// Which.
    pub kind: &'static str,
    /// Heading and number, in the order of the columns.
    pub cells: [(&'static str, String); 5],
}

/// The headings of the columns.
const COLUMNS: [&str; 5] = [
    "Added",
    "Replaced by the file",
    "Later here, kept",
    "Alike",
    "Left out",
];

impl TakeOver {
    /// What taking `bundle` over changes in `ledger`.
    pub fn of(ledger: &Ledger, unreadable: &[Unreadable], bundle: &Bundle) -> Self {
        let merge = Merge::of(ledger, bundle, &left_alone(unreadable));
        let added = merge.counts.values().map(|counts| counts.new).sum();
        let replaced = merge.counts.values().map(|counts| counts.newer).sum();
        let changes = merge.changes() > 0;
        // Both sides, so that every name is there.
        let merged = ledger.with(&merge.change);
        let mut notes: Vec<String> = merge
            .notes
            .iter()
            .take(TOLD)
            .map(|note| note_words(ledger, &merged, note))
            .collect();
        let more = merge.notes.len().saturating_sub(TOLD);
        if more > 0 {
            notes.push(format!("And {more} more of these."));
        }
        if !bundle.unreadable().is_empty() {
            notes.push(format!(
                "The file has {} that this version cannot read. What it holds stays in the file: \
                 keep it, and read it again with a newer version.",
                counted(bundle.unreadable().len(), "text")
            ));
        }
        Self {
            from: from(bundle),
            outcome: outcome(bundle, added, replaced),
            changes,
            rows: Kind::ALL
                .into_iter()
                .filter_map(|kind| Some(row(kind, merge.counts.get(&kind)?)))
                .collect(),
            notes,
            done: format!(
                "Taken over and stored: {} added, {} replaced.",
                counted(added, "record"),
                replaced
            ),
        }
    }

    /// Whether all of `bundle` that can be taken is in `ledger`.
    pub fn is_in(ledger: &Ledger, unreadable: &[Unreadable], bundle: &Bundle) -> bool {
        Merge::of(ledger, bundle, &left_alone(unreadable)).changes() == 0
    }

    /// Takes `bundle` over.
    pub fn command(unreadable: &[Unreadable], bundle: &Arc<Bundle>) -> Command {
        Command::TakeOver {
            bundle: Arc::clone(bundle),
            leave: left_alone(unreadable),
        }
    }
}

fn from(bundle: &Bundle) -> String {
    let device = match bundle.device() {
        "" => String::new(),
        device => format!(" on {device}"),
    };
    let held = match counted_kinds(bundle.records()) {
        held if held.is_empty() => "nothing".to_owned(),
        held => held,
    };
    format!("Saved {}{device}. It holds {held}.", bundle.written())
}

fn outcome(bundle: &Bundle, added: usize, replaced: usize) -> String {
    match (added, replaced) {
        (0, 0) if bundle.records().is_empty() => {
            "Nothing would change: there are no records in this file.".to_owned()
        }
        (0, 0) => "Nothing would change: all that can be taken from this file is here.".to_owned(),
        (added, 0) => format!(
            "{} would be added, none replaced.",
            counted(added, "record")
        ),
        (0, replaced) => format!(
            "{} here would be replaced, none added.",
            counted(replaced, "record")
        ),
        (added, replaced) => format!(
            "{} would be added, and {} here replaced.",
            counted(added, "record"),
            counted(replaced, "record")
        ),
    }
}

fn row(kind: Kind, counts: &Counts) -> MergeRow {
    let Counts {
        new,
        newer,
        older,
        same,
        left,
    } = *counts;
    let [added, replaced, kept, alike, out] = COLUMNS;
    let cell = |heading, count: usize| (heading, count.to_string());
    MergeRow {
        kind: title(kind),
        cells: [
            cell(added, new),
            cell(replaced, newer),
            cell(kept, older),
            cell(alike, same),
            cell(out, left),
        ],
    }
}
