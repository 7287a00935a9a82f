//! The page that checks a saved file and takes nothing of it in.

mod digest;
mod ledger;
mod marking;
mod signature;

use super::start::sentence;
use crate::output::json;
use crate::records::Bundle;

pub use digest::{compared_with, read_digest};
pub use ledger::{LedgerCheck, LedgerFound, Step};
pub use marking::MarkingFound;
pub use signature::{SignatureFound, Signed, key_compared};

/// How a verdict weighs, in the order of what may be relied on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Outcome {
    /// As it was sealed.
    Intact,
    /// The marks are; something beside them is not.
    Partly,
    /// Altered since sealing.
    Altered,
}

/// What a file turned out to be.
#[derive(Debug)]
pub enum Opened {
    /// The file of one sealed marking, checked.
    Marking(Box<MarkingFound>),
    /// A ledger file, whose sealed markings are to be checked one by one.
    Ledger(Box<LedgerCheck>),
}

/// Reads a file that somebody chose: the JSON of a sealed marking, or a ledger file.
///
/// *Errors:* in words, for people: what is wrong, where, and how to mend it.
pub fn open_file(bytes: &[u8]) -> Result<Opened, String> {
    if says_ledger(bytes) {
        let (bundle, altered) = Bundle::read_altered(bytes).map_err(|error| told(&error))?;
        let trouble = altered.map(|error| told(&error));
        return Ok(Opened::Ledger(Box::new(LedgerCheck::of(&bundle, trouble))));
    }
    let text = std::str::from_utf8(bytes).map_err(|error| {
        format!(
            "This is no sealed marking and no ledger file: it is not text from byte {} on. \
             Choose the JSON file of a sheet, or a ledger file.",
            error.valid_up_to() + 1
        )
    })?;
    let file = json::read(text).map_err(|error| told(&error))?;
    Ok(Opened::Marking(Box::new(MarkingFound::of(&file))))
}

/// Whether a file began as a ledger file, told without reading all of it.
fn says_ledger(bytes: &[u8]) -> bool {
    const SAYS: &[u8] = b"\"evenshod ledger\"";
    // Its name is among the first things in it, however it was laid out anew.
    const SAID_BY: usize = 200;
    let start = bytes.get(..SAID_BY).unwrap_or(bytes);
    start.windows(SAYS.len()).any(|part| part == SAYS)
}

fn told(error: &dyn std::fmt::Display) -> String {
    sentence(&error.to_string())
}
