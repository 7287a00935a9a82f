//! How well examiners agree, as a document.

use super::perform::read;
use super::scored::ledger_of;
use crate::job::Agreed;
use crate::moderation::{Gathered, agreement};
use crate::records::Span;
use crate::sheet::{Document, Moderated, agreement_document};

/// Makes the document; `tell` hears how much is done, from 0 to 1.
///
/// *Errors:* in words, for people.
pub(super) fn agreed(wanted: &Agreed, tell: &mut dyn FnMut(f64)) -> Result<Document, String> {
    let ledger = ledger_of(&wanted.records)?;
    let version = ledger
        .rubric(&wanted.rubric)
        .ok_or("this rubric is no longer here; reload the page")?;
    let rubric = read(&version.text)?;
    let span = Span {
        from: wanted.from,
        to: wanted.to,
    };
    let gathered = Gathered::of(&ledger, &rubric, &version.digest, span);
    let agreement = agreement(&gathered, tell);
    Ok(agreement_document(&Moderated {
        ledger: &ledger,
        version,
        gathered: &gathered,
        agreement: &agreement,
        hides_names: wanted.hides_names,
        day: wanted.day,
    }))
}
