//! Tickets of a sitting, to print, cut out and tie on.

use crate::chart::{TicketText, ticket_row};
use crate::records::{Ledger, Piece, SittingId};

use super::document::{Block, Document, Oversize};
use super::words::capital;

/// Tickets side by side.
const COLUMNS: usize = 2;
/// What is said above them.
const USE: &str = "Print at 100 %, cut along the broken lines, punch the hole and tie on with wire, \
    once the steel is cold. The code opens the piece in the browser that keeps it.";

/// The tickets of a sitting whose pieces are not sealed, in this order; `origin` is where the
/// program is served, before the path. `None` where the sitting is not here or has no such ticket.
///
/// A name that is hidden until sealing is not on them.
pub fn ticket_sheet(
    ledger: &Ledger,
    sitting: SittingId,
    pieces: &[&Piece],
    origin: &str,
) -> Option<Document> {
    let sitting = ledger.sitting(sitting)?;
    let occasion = [
        capital(sitting.kind.word()),
        sitting.name.clone(),
        sitting.day.to_string(),
    ];
    let occasion = occasion.into_iter().filter(|part| !part.is_empty());
    let occasion = occasion.collect::<Vec<_>>().join(", ");
    let texts = pieces.iter().filter_map(|piece| {
        let number = piece.ticket.clone()?;
        let learner = piece.learner.filter(|_| !piece.hidden_until_sealed);
        let name = learner.and_then(|id| Some(ledger.learner(id)?.name.clone()));
        let title = ledger.rubric(&piece.rubric).map(|one| one.title.clone());
        let words = name.into_iter().chain(title);
        Some(TicketText {
            number,
            words: words.chain([occasion.clone()]).collect(),
            address: format!("{origin}/pieces/{}", piece.id),
        })
    });
    let texts: Vec<TicketText> = texts.collect();
    if texts.is_empty() {
        return None;
    }
    let rows = texts.chunks(COLUMNS).map(|row| Block::TrueSize {
        drawing: ticket_row(row),
        otherwise: Oversize::Smaller,
    });
    let mut blocks = vec![Block::Paragraph(USE.to_owned())];
    blocks.extend(rows);
    Some(Document {
        title: "Tickets".to_owned(),
        about: occasion,
        language: "en-GB".into(),
        most_pages: None,
        blocks,
    })
}
