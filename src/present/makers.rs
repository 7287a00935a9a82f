use super::dates::long_day;
use crate::records::{Ledger, Piece};

/// Whose a piece is, as pages may say it: a learner whose name waits for the seal
/// is called by the ticket.
pub fn maker_name(ledger: &Ledger, piece: &Piece) -> String {
    let ticket = piece
        .ticket
        .as_ref()
        .map(|ticket| format!("Ticket {}", set_apart(ticket)));
    match (ticket, name_known(ledger, piece)) {
        (Some(ticket), false) => ticket,
        (ticket, _) => {
            let learner = piece.learner.map(|id| match ledger.learner(id) {
                Some(learner) => set_apart(&learner.name),
                None => "A learner who is not in this ledger".to_owned(),
            });
            learner
                .or(ticket)
                .unwrap_or_else(|| "Nobody named".to_owned())
        }
    }
}

/// Whether pages may tie the piece to its learner: not while the name waits for
/// the seal, of every marking that is made blind.
pub(super) fn name_known(ledger: &Ledger, piece: &Piece) -> bool {
    !piece.hidden_until_sealed || ledger.standing(piece.id).counts().is_some()
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

/// What a piece is made to.
pub(super) fn rubric_title<'a>(ledger: &'a Ledger, piece: &Piece) -> &'a str {
    ledger
        .rubric(&piece.rubric)
        .map_or("A rubric that is not in this ledger", |rubric| {
            &rubric.title
        })
}

/// Which try it is and what for: `third attempt, practice`. The try is left out
/// where it would tell whose the piece is.
pub(super) fn occasion(ledger: &Ledger, piece: &Piece) -> String {
    let attempt = name_known(ledger, piece)
        .then(|| attempt_words(piece.attempt))
        .flatten();
    let kind = ledger
        .sitting(piece.sitting)
        .map(|sitting| sitting.kind.word().to_owned());
    attempt
        .into_iter()
        .chain(kind)
        .collect::<Vec<_>>()
        .join(", ")
}

/// What a piece is and when it was made, for the head of its pages.
pub fn piece_words(ledger: &Ledger, piece: &Piece) -> String {
    let day = ledger
        .sitting(piece.sitting)
        .map(|sitting| long_day(sitting.day));
    let parts = [
        Some(rubric_title(ledger, piece).to_owned()),
        Some(occasion(ledger, piece)).filter(|text| !text.is_empty()),
        day,
    ];
    parts.into_iter().flatten().collect::<Vec<_>>().join(", ")
}

/// A name as it stands among other words: one that runs from right to left is set apart by
/// marks that are not seen, so that it turns nothing around it.
///
/// *Source:* Unicode Standard Annex 9, first strong isolate (U+2068) and its end (U+2069).
pub fn set_apart(name: &str) -> String {
    if name.chars().any(runs_left) {
        format!("\u{2068}{name}\u{2069}")
    } else {
        name.to_owned()
    }
}

/// Whether a character belongs to a script that runs from right to left: the blocks that Unicode
/// sets aside for them (DerivedBidiClass.txt, default classes R and AL).
fn runs_left(c: char) -> bool {
    matches!(
        c,
        '\u{590}'..='\u{8ff}'
            | '\u{200f}'
            | '\u{fb1d}'..='\u{fdff}'
            | '\u{fe70}'..='\u{feff}'
            | '\u{10800}'..='\u{10fff}'
            | '\u{1e800}'..='\u{1efff}'
    )
}
