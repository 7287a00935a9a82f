//! A correction that takes the place of a sealed marking.

use super::apply::missing;
use super::error::CommandError;
use super::start::{Begun, Ordinals, find_examiner, made_already, made_of};
use super::{Amend, Change};
use crate::records::{Kind, Ledger, Marking, MarkingId, RecordKey, Replaces, Role, Stamp};

/// Makes a draft that begins with what the sealed marking holds, and names that one.
pub(super) fn amend(ledger: &Ledger, what: Amend, stamp: &Stamp) -> Result<Change, CommandError> {
    let id = MarkingId::made_by(stamp, Ordinals::FIRST.marking);
    if let Some(change) = made_already(ledger, id) {
        return Ok(change);
    }
    let old = ledger
        .marking(what.marking)
        .ok_or_else(|| missing(Kind::Marking, what.marking))?;
    let piece = ledger
        .piece(old.piece)
        .ok_or_else(|| missing(Kind::Piece, old.piece))?;
    refuse_amend(ledger, old)?;
    let reason = what.reason.trim();
    if reason.is_empty() {
        return Err(CommandError::NoReason);
    }
    let mut change = Change {
        relies_on: vec![
            RecordKey::new(Kind::Marking, old.id),
            RecordKey::new(Kind::Piece, piece.id),
            RecordKey::new(Kind::Rubric, &old.rubric),
        ],
        ..Change::default()
    };
    let examiner = find_examiner(ledger, &what.examiner, stamp, Ordinals::FIRST, &mut change)?;
    let begun = Begun {
        piece: piece.id,
        sitting: piece.sitting,
        role: Role::Amended,
        examiner,
        rubric: old.rubric.clone(),
        unit: old.unit,
        at: what.at,
    };
    change.puts.push(
        Marking {
            facts: old.facts.clone(),
            comments: old.comments.clone(),
            overall: old.overall.clone(),
            photos: old.photos.clone(),
            replaces: Some(Replaces {
                marking: old.id,
                reason: reason.to_owned(),
            }),
            ..begun.marking(ledger, stamp, Ordinals::FIRST)
        }
        .into(),
    );
    change.made = made_of(piece, examiner, id);
    Ok(change)
}

fn refuse_amend(ledger: &Ledger, old: &Marking) -> Result<(), CommandError> {
    let replacing = ledger.markings_of(old.piece).find(|other| {
        let replaces = other.replaces.as_ref();
        replaces.is_some_and(|replaces| replaces.marking == old.id)
    });
    let why = match replacing {
        _ if old.seal.is_none() => "it is a draft still; change it as it is",
        _ if old.role == Role::Own => {
            "it is the maker’s own, and only an examiner’s is corrected; mark the piece anew"
        }
        _ if old.agreement.is_some() => {
            "examiners agreed on it; correct one of their markings, then agree anew"
        }
        Some(other) if other.seal.is_some() => {
            "another one has taken its place already; correct that one"
        }
        Some(_) => "a correction of it is open already; go on with that one",
        None if ledger.standing(old.piece).is_unseen() => {
            "another marking of the piece is still made unseen; seal that one first"
        }
        None => return Ok(()),
    };
    Err(CommandError::AmendRefused { why })
}
