use crate::present::makers::{maker_name, piece_words, set_apart};
use crate::records::{Kind, Ledger, Note, Piece, RecordKey, What};

/// What a person has to know, in a sentence or two. `here` is the ledger as it is,
/// `merged` what it becomes.
pub(super) fn note_words(here: &Ledger, merged: &Ledger, note: &Note) -> String {
    let what = about(merged, &note.about);
    match note.what {
        What::SealedTwice => {
            let sealed = sealed_at(here, &note.about)
                .map_or_else(String::new, |at| format!(" The one here is of {at}."));
            format!(
                "{what}: sealed on both devices, and not alike.{sealed} It stays as it is; the \
                 other stays in the file. Settle which one counts."
            )
        }
        What::SealedPiece => format!(
            "{what}: sealed on both devices, with different things said of the piece. What is \
             here stays; look at both sheets."
        ),
        What::SealedSitting => format!(
            "{what}: sealed markings on both devices give it another kind or day. What is here \
             stays; look at both sheets."
        ),
        What::RubricDiffers => format!(
            "{what}: the file has another text under the same digest, so it was altered. The \
             text here stays."
        ),
        What::UnreadableHere => format!(
            "{what}: what is stored here cannot be read and is never overwritten. The file’s is \
             left out; keep the file."
        ),
        What::SealedHere => {
            format!("{what}: changed later in the file, but sealed here. What is sealed stays.")
        }
        What::SealedInFile => format!(
            "{what}: sealed in the file and changed later here. The sealed one takes the place \
             of these changes."
        ),
        What::ErasedHere => format!(
            "{what}: {} erased here, and the file has them still. They stay erased; delete the \
             file if nobody is to read them.",
            erasable(note)
        ),
        What::ErasedInFile => {
            format!(
                "{what}: {} erased in the file and are erased here too.",
                erasable(note)
            )
        }
        What::DraftReplaced => {
            format!("{what}: the draft here is replaced by the file’s later one.")
        }
        What::SameName { here: other } => {
            let name = here
                .learner(other)
                .map_or_else(String::new, |learner| set_apart(&learner.name));
            format!(
                "{name}: the file brings another learner of this name. Both are kept; give one \
                 of them a number or another name on its page."
            )
        }
        What::SameTicket { here: other } => {
            let ticket = here.piece(other).and_then(|piece| piece.ticket.clone());
            format!(
                "Ticket {}: a piece of this ticket is here already, and the file brings another. \
                 Both are kept; look which one counts.",
                ticket.unwrap_or_default()
            )
        }
    }
}

/// What can be erased of the record that a note is about.
fn erasable(note: &Note) -> &'static str {
    match note.about.kind {
        Kind::Marking => "its comments and photos were",
        Kind::Milestone => "its words were",
        Kind::Study => "names were",
        _ => "name and details were",
    }
}

/// What a record is about, as people call it.
fn about(ledger: &Ledger, key: &RecordKey) -> String {
    let id = key.id.as_str();
    let named = match key.kind {
        Kind::Learner => id
            .parse()
            .ok()
            .and_then(|id| ledger.learner(id))
            .map(|learner| learner.name.clone()),
        Kind::Examiner => id
            .parse()
            .ok()
            .and_then(|id| ledger.examiner(id))
            .map(|examiner| examiner.name.clone()),
        Kind::Milestone => id
            .parse()
            .ok()
            .and_then(|id| ledger.milestone(id))
            .map(|milestone| format!("The milestone of {}", milestone.day)),
        Kind::Sitting => id.parse().ok().and_then(|id| {
            let sitting = ledger.sitting(id)?;
            Some(format!("The {} of {}", sitting.kind.word(), sitting.day))
        }),
        Kind::Instrument => ledger.instrument(id).map(|one| one.fact.name.clone()),
        Kind::Study => id.parse().ok().and_then(|id| {
            let study = ledger.study(id)?;
            Some(format!("The instrument study of {}", study.facts.day))
        }),
        Kind::TableHead => Some(format!("The column names of {id} tables")),
        Kind::Picture => Some("A picture".to_owned()),
        Kind::Rubric => ledger.rubric(id).map(|rubric| rubric.title.clone()),
        Kind::RubricDraft => Some("A rubric in work".to_owned()),
        Kind::Piece => piece_of(ledger, key).map(|piece| called(ledger, piece)),
        Kind::Marking => {
            piece_of(ledger, key).map(|piece| format!("The marking of {}", called(ledger, piece)))
        }
    };
    named.unwrap_or_else(|| format!("The {key}"))
}

fn piece_of<'a>(ledger: &'a Ledger, key: &RecordKey) -> Option<&'a Piece> {
    match key.kind {
        Kind::Marking => ledger.piece(ledger.marking(key.id.parse().ok()?)?.piece),
        _ => ledger.piece(key.id.parse().ok()?),
    }
}

fn called(ledger: &Ledger, piece: &Piece) -> String {
    format!(
        "{}, {}",
        maker_name(ledger, piece),
        piece_words(ledger, piece)
    )
}

fn sealed_at(ledger: &Ledger, key: &RecordKey) -> Option<String> {
    let marking = ledger.marking(key.id.parse().ok()?)?;
    Some(marking.seal.as_ref()?.at.to_string())
}
