use super::dates::long_day;
use crate::records::{Ledger, Piece, SittingKind};

/// Whose a piece is, as pages may say it: a learner whose name waits for the seal
/// is called by the ticket.
pub fn maker_name(ledger: &Ledger, piece: &Piece) -> String {
    let ticket = piece
        .ticket
        .as_ref()
        .map(|ticket| format!("Ticket {ticket}"));
    match (ticket, name_known(ledger, piece)) {
        (Some(ticket), false) => ticket,
        (ticket, _) => {
            let learner = piece.learner.map(|id| match ledger.learner(id) {
                Some(learner) => learner.name.clone(),
                None => "A learner who is not in this ledger".to_owned(),
            });
            learner
                .or(ticket)
                .unwrap_or_else(|| "Nobody named".to_owned())
        }
    }
}

/// Whether pages may tie the piece to its learner: not while the name waits for
/// the seal.
pub(super) fn name_known(ledger: &Ledger, piece: &Piece) -> bool {
    !piece.hidden_until_sealed
        || ledger
            .markings_of(piece.id)
            .any(|marking| marking.seal.is_some())
}

/// `third attempt`; nothing for the first.
pub(super) fn attempt_words(attempt: u32) -> Option<String> {
    const ORDINALS: [&str; 9] = [
        "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth",
    ];
    let ordinal = attempt
        .checked_sub(2)
        .and_then(|index| ORDINALS.get(usize::try_from(index).ok()?));
    match (attempt, ordinal) {
        (0 | 1, _) => None,
        (_, Some(ordinal)) => Some(format!("{ordinal} attempt")),
        (attempt, None) => Some(format!("attempt {attempt}")),
    }
}

/// What a piece is: `Straight bar shoe, third attempt, practice`. The attempt is
/// left out where it would tell whose the piece is.
pub(super) fn about(ledger: &Ledger, piece: &Piece) -> String {
    let title = ledger
        .rubric(&piece.rubric)
        .map_or("A rubric that is not in this ledger", |rubric| {
            &rubric.title
        });
    let mut parts = vec![title.to_owned()];
    if name_known(ledger, piece) {
        parts.extend(attempt_words(piece.attempt));
    }
    parts.extend(kind(ledger, piece).map(|kind| kind.word().to_owned()));
    parts.join(", ")
}

pub(super) fn kind(ledger: &Ledger, piece: &Piece) -> Option<SittingKind> {
    ledger.sitting(piece.sitting).map(|sitting| sitting.kind)
}

/// What a piece is and when it was made, for the head of its pages.
pub fn piece_words(ledger: &Ledger, piece: &Piece) -> String {
    let day = ledger
        .sitting(piece.sitting)
        .map(|sitting| long_day(sitting.day));
    let about = about(ledger, piece);
    day.map_or_else(|| about.clone(), |day| format!("{about}, {day}"))
}
